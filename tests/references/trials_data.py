"""Published runs of designed trials and regressions, typed out where they are short.

Where a set is marked as typed from memory, the published coefficients coming out of it to the last
digit are what confirms it.
"""

import numpy as np

# Box, Hunter and Hunter (1978), p. 325: conversion in a 2⁴ design, standard order.
CHEMICAL = (71, 61, 90, 82, 68, 61, 87, 80, 61, 50, 89, 83, 59, 51, 85, 78)

# Box, Hunter and Hunter (1978), p. 391: seconds to climb a hill, 2⁷⁻⁴ (from memory).
BICYCLE = (69, 52, 60, 83, 71, 50, 59, 88)
BICYCLE_GENERATORS = ("D=AB", "E=AC", "F=BC", "G=ABC")

# NIST/SEMATECH e-Handbook 5.5.3.1.1: first design of a search for a better yield.
FIRST_POINTS = np.array([[-1, -1], [1, -1], [-1, 1], [1, 1], *[[0, 0]] * 5], dtype=float)
FIRST_YIELDS = np.array([32.79, 24.07, 48.94, 52.49, 38.89, 48.29, 29.68, 46.50, 44.15])

# The same, 5.5.3.1.3 and 5.5.3.1.4: the second design with its axial runs.
SECOND_POINTS = np.vstack([FIRST_POINTS, 1.414 * np.array([[-1, 0], [1, 0], [0, -1], [0, 1]])])
SECOND_YIELDS = np.array(
    [64.33, 51.78, 77.30, 45.37, 62.08, 79.36, 75.29, 73.81, 69.45, 72.58, 37.42, 54.63, 54.18]
)

# The same, 5.4.7.3: uniformity of a deposited layer (from memory), axes coded ±0.71.
UNIFORMITY_POINTS = np.array(
    [[1, 0], [0, 0], [0.71, -0.71], [-0.71, 0.71], [-1, 0], [0, 0], [-0.71, -0.71], [0, -1],
     [0.71, 0.71], [0, 1], [0, 0]]
)  # fmt: skip
UNIFORMITY = np.array([4.6, 6.2, 3.4, 6.9, 7.3, 6.4, 8.6, 6.3, 5.1, 5.4, 5.0])

# Derringer and Suich, J. Quality Technology 12 (1980): abrasion of a tyre tread (from memory).
_CORNERS = np.array([[a, b, c] for c in (-1, 1) for b in (-1, 1) for a in (-1, 1)], dtype=float)
TYRE_POINTS = np.vstack([_CORNERS, 1.63 * np.kron(np.eye(3), [[-1.0], [1.0]]), np.zeros((6, 3))])
TYRE = np.array(
    [102, 120, 117, 198, 103, 132, 132, 139, 102, 154, 96, 163, 116, 153, 133, 133, 140, 142,
     145, 142], dtype=float
)  # fmt: skip

# Longley, J. American Statistical Association 62 (1967): NIST StRD, higher difficulty (from
# memory). Prices, product, unemployed, forces, population, year; then employed.
LONGLEY = np.array(
    [
        [83.0, 234289, 2356, 1590, 107608, 1947, 60323],
        [88.5, 259426, 2325, 1456, 108632, 1948, 61122],
        [88.2, 258054, 3682, 1616, 109773, 1949, 60171],
        [89.5, 284599, 3351, 1650, 110929, 1950, 61187],
        [96.2, 328975, 2099, 3099, 112075, 1951, 63221],
        [98.1, 346999, 1932, 3594, 113270, 1952, 63639],
        [99.0, 365385, 1870, 3547, 115094, 1953, 64989],
        [100.0, 363112, 3578, 3350, 116219, 1954, 63761],
        [101.2, 397469, 2904, 3048, 117388, 1955, 66019],
        [104.6, 419180, 2822, 2857, 118734, 1956, 67857],
        [108.4, 442769, 2936, 2798, 120445, 1957, 68169],
        [110.8, 444546, 4681, 2637, 121950, 1958, 66513],
        [112.6, 482704, 3813, 2552, 123366, 1959, 68655],
        [114.2, 502601, 3931, 2514, 125368, 1960, 69564],
        [115.7, 518173, 4806, 2572, 127852, 1961, 69331],
        [116.9, 554894, 4007, 2827, 130081, 1962, 70551],
    ]
)
