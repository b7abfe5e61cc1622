"""Regions of a field on a grid: what is inside, column by column, and the line about it."""

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]


def column_runs(field: FloatArray, ups: FloatArray) -> list[tuple[int, float, float]]:
    """Return (column, from, to) wherever ``field`` ``(n_up, n_across)`` is zero or more.

    Ends between two rows of ``ups`` ``(n_up,)`` lie where the straight line crosses zero.
    """
    runs = []
    for column in range(field.shape[1]):
        values = field[:, column]
        inside = values >= 0
        edges = np.flatnonzero(np.diff(inside.astype(int)))
        share = values[edges] / (values[edges] - values[edges + 1])
        crossings = ups[edges] + share * (ups[edges + 1] - ups[edges])
        marks = list(crossings)
        if inside[0]:
            marks.insert(0, ups[0])
        if inside[-1]:
            marks.append(ups[-1])
        runs += [
            (column, float(low), float(high))
            for low, high in zip(marks[::2], marks[1::2], strict=True)
        ]
    return runs


def zero_line(
    field: FloatArray, across: FloatArray, ups: FloatArray
) -> list[tuple[float, float, float, float]]:
    """Return the segments (x, y, x2, y2) along which ``field`` ``(n_up, n_across)`` is zero.

    Marching squares with straight lines in each cell; a cell with four crossings gets two segments,
    paired by the sign of the mean of its corners.
    """
    segments = []
    for row in range(field.shape[0] - 1):
        for column in range(field.shape[1] - 1):
            corners = [
                (across[column], ups[row], field[row, column]),
                (across[column + 1], ups[row], field[row, column + 1]),
                (across[column + 1], ups[row + 1], field[row + 1, column + 1]),
                (across[column], ups[row + 1], field[row + 1, column]),
            ]
            points = []
            for one, two in zip(corners, corners[1:] + corners[:1], strict=True):
                if (one[2] >= 0) != (two[2] >= 0):
                    share = one[2] / (one[2] - two[2])
                    points.append(
                        (one[0] + share * (two[0] - one[0]), one[1] + share * (two[1] - one[1]))
                    )
            if len(points) == 4 and (sum(c[2] for c in corners) >= 0) == (corners[0][2] >= 0):
                points = points[1:] + points[:1]
            segments += [
                (float(a[0]), float(a[1]), float(b[0]), float(b[1]))
                for a, b in zip(points[::2], points[1::2], strict=True)
            ]
    return segments
