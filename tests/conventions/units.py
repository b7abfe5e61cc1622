"""The units a name may end in, and the numbers that have none."""

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass

from tests.conventions.reading import dotted, public_definitions

# The ending of a name, and how the unit is written in the brackets of a docstring.
UNITS = {
    "m": "m", "mm": "mm", "um": "µm", "m2": "m²", "mm2": "mm²", "m3": "m³", "in": "in", "ft": "ft",
    "s": "s", "ms": "ms", "min": "min", "h": "h", "days": "d", "weeks": "wk", "week": "wk",
    "hz": "Hz", "rad": "rad", "deg": "°",
    "ohm": "Ω", "f": "F", "h_per_m": "H/m", "v": "V", "w": "W", "a": "A", "siemens": "S",
    "db": "dB", "dbm": "dBm", "dbu": "dBu", "dbuv": "dBµV", "dbmv": "dBmV",
    "henry": "H", "neper": "Np",
    "100ft": "100 ft", "1000ft": "1000 ft", "100m": "100 m",
    "k": "K", "celsius": "°C", "kg": "kg", "n": "N", "pa": "Pa", "j": "J", "bit": "bit",
    "root_hz": "√Hz", "percent": "%", "cents": "cents",
}  # fmt: skip

# The last word of a whole number that counts things or points at one of several.
COUNTS = {
    "count", "quantity", "pieces", "conductors", "contacts", "legs", "ends", "taps", "steps",
    "interfaces", "adapters", "pairs", "starts", "good", "trials", "digits", "decimals", "cuts",
    "attempts", "rounds", "touched", "missing", "open", "awg", "gauge", "seed", "size", "dpi",
    "least",
    "row", "line", "number", "column", "rank", "place", "priority", "index", "ahead", "reel",
    "kind", "at", "before", "moves", "cut", "more", "needed", "carriers", "strands", "wires",
    "nodes", "first", "remnants",
}  # fmt: skip
# The last word of a number without a unit; ``low`` and ``high`` after it name the ends of a band.
RATIOS = {
    "factor", "ratio", "fraction", "chance", "probability", "confidence", "weight", "permittivity",
    "permeability", "tangent", "yield", "share", "score", "residual", "efficiency", "tightest",
    "loosest", "proportion", "reflection", "awg", "noncentrality", "square", "significance",
    "coverage", "q",
}  # fmt: skip

# Settings and responses of trials are in units of their own, told beside them; their models are
# in the scale of a response.
_IN_UNITS_OF_THE_BENCH = {
    "amplitude", "best_at", "bounds", "centre", "coded", "coefficients", "columns", "coordinates",
    "counts", "curvatures", "degrees", "degrees_below", "dimensions", "directions", "expected",
    "factor", "good", "inside", "left", "length", "lengths", "level", "margins", "matrix",
    "means", "noise", "one", "other", "point", "points", "pure_degrees", "repeats", "right",
    "roots", "safe", "scale", "sign", "sizes", "slopes", "spread", "spreads", "sum_of_squares",
    "unscaled", "value", "values", "variances", "weights", "within",
}  # fmt: skip

# All of one stack is in one unit; the textbook's are lengths that make an angle.
_IN_THE_UNIT_OF_THE_STACK = {
    "nominal", "sensitivity", "tolerance", "shift", "mean", "deviation", "reach", "spread", "low",
    "high", "middle", "width", "worst_case", "root_sum_square", "lowest", "highest",
    "mean_uncertainty", "deviation_uncertainty", "outside_share_uncertainty", "histogram_low",
    "histogram_high", "cp", "cpk",
    "tolerance_shares", "spread_shares",
}  # fmt: skip

# Numbers whose unit is the caller's: what is said of them holds in any unit.
ANY_UNIT = {
    "core/advice/change.py": {"size", "parts"},  # comparable among changes of one question
    "core/parts/cable.py": {"value"},  # in the unit of the field it stands in
    "core/physics/lot_values.py": {"value"},
    "core/cutting/stock_lengths/": {  # whole numbers of whatever the problem counts its costs in
        "at_most",
        "bound",
        "cost",
        "duals",
        "enough",
        "nodes",
        "stock",
        "times",
        "uses",
    },
    "core/cutting/stop.py": {"best", "bound"},
    # An aim adds up levels of several units; its weights say how.
    "core/cutting/aims.py": {"scale", "give_back"},
    "core/cutting/plan.py": {"value", "bound", "given_back"},
    "core/cutting/words.py": {"value"},
    "core/cutting/program/": {
        "amount",
        "bound",
        "fixed",
        "high",
        "low",
        "scale",
        "start",
        "value",
        "values",
        "variable",
    },
    "core/bench/problem.py": {"change_over", "late"},  # weights of a second of each
    "core/signals/budget.py": {"limit", "guard"},  # in the unit of what is used
    "core/signals/judgement.py": {"margin", "low", "high"},  # in the signal's margin unit
    "core/signals/direct_current.py": {"used_nominal", "used_with_more", "spread"},
    "core/quantities/guard.py": {"low", "high", "at_least"},
    "core/quantities/show.py": {"value"},
    "core/ends/stack/": _IN_THE_UNIT_OF_THE_STACK,
    "core/trials/": _IN_UNITS_OF_THE_BENCH,
    "core/statistics/": {"mean", "deviation", "limit", "value", "degrees"},  # of freedom
}

NUMBERS = {"float", "int", "FloatArray", "ndarray", "ArrayLike", "NDArray", "Array"}


def unit_of(name: str) -> str | None:
    """The unit that a name ends in, as written (``ohm_per_m`` is ``Ω/m``); None where none."""
    parts = name.lower().split("_per_")
    written = []
    for position, part in enumerate(parts):
        words = part.split("_")
        tail = "_".join(words[-2:]) if "_".join(words[-2:]) in UNITS else words[-1]
        if position and part not in UNITS:
            return None
        # ``temperature_coefficient_per_k`` has nothing above the line but a word for a ratio.
        if tail not in UNITS:
            if position == 0 and len(parts) > 1:
                written.append("1")
                continue
            return None
        # A product: ``resistivity_ohm_m``.
        if position == 0 and len(words) > 2 and words[-2] in {"ohm", "n"} and tail == "m":
            written.append(f"{UNITS[words[-2]]}·{UNITS[tail]}")
            continue
        written.append(UNITS[tail])
    if len(name.split("_")) < 2:
        return None
    unit = "/".join(written)
    # Nothing is told in hours a metre, so ``inductance_h_per_m`` is in henries.
    return UNITS["h_per_m"] if unit == "h/m" else unit


def is_pure(name: str, *, whole: bool) -> bool:
    """Whether a name tells a ratio, or, for a whole number, a count or a place."""
    words = name.lower().split("_per_")[0].split("_") if whole else name.lower().split("_")
    if words[-1] in {"low", "high"}:
        words.pop()
    if not words:
        return False
    told = words[-1] in RATIOS or words[0] in {"chance", "relative"}
    told = told or name.endswith("relative_uncertainty")
    return told or (whole and words[-1] in COUNTS)


def numeric(annotation: ast.expr | None) -> bool:
    """Whether an annotation is a number, an optional number or an array of numbers."""
    if annotation is None:
        return False
    if isinstance(annotation, ast.BinOp):
        sides = [numeric(annotation.left), numeric(annotation.right)]
        text = "str" in (dotted(annotation.left), dotted(annotation.right))
        return any(sides) and not text
    if isinstance(annotation, ast.Subscript):
        return numeric(annotation.value)
    return dotted(annotation).split(".")[-1] in NUMBERS


def is_whole(annotation: ast.expr) -> bool:
    """Whether an annotation allows nothing but whole numbers (or None)."""
    named = {dotted(node) for node in ast.walk(annotation) if isinstance(node, ast.expr)}
    return "int" in named and not named & (NUMBERS - {"int"})


@dataclass(frozen=True)
class PublicNumber:
    """A field or an argument: where it stands, and the docstring that may speak of it."""

    where: str
    name: str
    whole: bool
    told: str


def public_numbers(tree: ast.Module) -> Iterator[PublicNumber]:
    """Every public number.

    These are the fields of public classes and the arguments of public functions. A class with a
    field ``unit`` says the unit of its other numbers there.
    """
    for where, node in public_definitions(tree):
        told = ast.get_docstring(node) or ""
        if isinstance(node, ast.ClassDef):
            fields = [it for it in node.body if isinstance(it, ast.AnnAssign)]
            names = {it.target.id for it in fields if isinstance(it.target, ast.Name)}
            if names & {"unit", "margin_unit"}:
                continue
            for field in fields:
                if isinstance(field.target, ast.Name) and numeric(field.annotation):
                    whole = is_whole(field.annotation)
                    yield PublicNumber(where, field.target.id, whole, told)
        else:
            given = [*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs]
            if any(argument.arg == "unit" for argument in given):
                continue
            for argument in given:
                if argument.annotation is not None and numeric(argument.annotation):
                    whole = is_whole(argument.annotation)
                    yield PublicNumber(where, argument.arg, whole, told)


def unit_faults(tree: ast.Module, path: str = "") -> list[str]:
    """Public numbers without a unit in their name, or with another in their docstring."""
    faults = []
    free = {name for part, names in ANY_UNIT.items() if part in path for name in names}
    for number in public_numbers(tree):
        where, name, told = number.where, number.name, number.told
        if name.startswith("_") or name in free:
            continue
        unit = unit_of(name)
        if unit is None and not is_pure(name, whole=number.whole):
            faults.append(f"{where}: {name} names no unit")
            continue
        said = re.search(rf"\b{re.escape(name)}`*:? ?\[([^\]]+)\]", told)
        if said and said.group(1) != (unit or "1"):
            faults.append(f"{where}: {name} is in {unit or 1}, its docstring says {said.group(1)}")
    return faults
