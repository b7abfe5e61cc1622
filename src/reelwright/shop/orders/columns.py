"""The columns of an order file: rows of text -> lines read, or every fault of the file.

The structured columns must be decisive: what they leave open is a fault to mend in the file. What
reads well but may still be wrong (against the typed text, the customer's habits, the stock) is a
question to the customer, asked later and line by line.
"""

import dataclasses
import datetime as dt
import difflib
import functools
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import TypeVar

from reelwright.core.errors import Fault, InputFaults, UnreadableQuantity
from reelwright.core.parts.colour import COLOUR_NAMES, read_colour
from reelwright.core.quantities.count_text import ACCEPTED as COUNTS
from reelwright.core.quantities.count_text import read_count
from reelwright.core.quantities.date_text import ACCEPTED as DATES
from reelwright.core.quantities.date_text import read_date
from reelwright.core.quantities.length_text import ACCEPTED as LENGTHS
from reelwright.core.quantities.length_text import LengthContext, read_length
from reelwright.core.quantities.scaled_text import read_temperature
from reelwright.core.quantities.tolerance_text import LengthTolerance, read_tolerance
from reelwright.core.signals.space import Place
from reelwright.shop.orders.set_wish import ACCEPTED as SETS
from reelwright.shop.orders.set_wish import SetKind, SetWish, read_set
from reelwright.shop.orders.space_words import ACCEPTED as PLACES
from reelwright.shop.orders.space_words import read_space
from reelwright.shop.tables import Row, read_table

REQUIRED = ("order", "customer", "typed", "quantity", "cable", "signal", "end_a", "end_b", "length")
OPTIONAL = ("line", "colour", "space", "due", "tolerance", "set", "adapters", "temperature")
COLUMNS = (*REQUIRED, *OPTIONAL)
YOU_CHOOSE = "you choose"
# What the tables of orders and customers hold.
LONGEST_ORDER, LONGEST_CUSTOMER = 40, 200
MOST_OF_ONE_LINE = 1000
MOST_ADAPTERS = 20
# What the formulae of copper hold for, and what a jacket may be asked to bear.
COLDEST_CELSIUS, HOTTEST_CELSIUS = -60.0, 150.0

_NEVER_EMPTY = {
    "order": "the number of the order",
    "customer": "the name of the customer",
    "signal": "what the cable shall carry",
}
_ANY_LENGTH_MM = 1_000_000_000
_LONGEST_WORD = 80

_T = TypeVar("_T")


@dataclass(frozen=True, kw_only=True)
class Vocabulary:
    """What the catalogue can be asked for by name; keys are folded (lower case, single spaces).

    ``light_connectors``: codes of the connectors that carry light; one of them at one end and a
    copper one at the other is no cable.
    """

    cables: Mapping[str, str]
    connectors: Mapping[str, tuple[str, ...]]
    light_connectors: frozenset[str]

    @functools.cached_property
    def cable_spellings(self) -> tuple[tuple[str, str], ...]:
        """Every word for a cable, folded, with the spelling to show."""
        return tuple((word, _spelt(word, (code,))) for word, code in self.cables.items())

    @functools.cached_property
    def connector_spellings(self) -> tuple[tuple[str, str], ...]:
        """Every word for a connector, folded, with the spelling to show."""
        return tuple((word, _spelt(word, codes)) for word, codes in self.connectors.items())


@dataclass(frozen=True, kw_only=True)
class ReadLine:
    """One order line as its columns read; ``cells`` are the columns as they came.

    ``cable_code`` None: the workshop chooses. ``ends`` are the connector codes that each end's
    word may mean. ``colours``: none named, one for all, or one for each cable of the line.
    ``tolerance`` is None where its words must be asked about (``tolerance_question``);
    ``warmest_celsius`` [°C] where the temperature was not stated.
    """

    row: int
    cells: Mapping[str, str]
    order: str
    number: int
    customer: str
    typed: str
    quantity: int
    cable_code: str | None
    signal_text: str
    ends: tuple[tuple[str, ...], tuple[str, ...]]
    length_m: float
    length_read_as: str
    length_approximate: bool
    unit_family: str
    colours: tuple[str, ...]
    space: Place | None
    adapters: int
    warmest_celsius: float | None
    due: dt.date | None
    tolerance: LengthTolerance | None
    tolerance_question: str | None
    wish: SetWish


def read_orders(*, name: str, content: bytes, vocabulary: Vocabulary) -> list[ReadLine]:
    """Return the lines of an order file; raise InputFaults with all that is wrong with it."""
    rows = read_table(
        name=name, content=content, required=REQUIRED, optional=OPTIONAL, each="order line"
    )
    faults: list[Fault] = []
    lines = _number(_read_each(name, rows, vocabulary, faults))
    faults.extend(_twice(name, lines))
    if faults:
        raise InputFaults(sorted(faults, key=lambda fault: fault.row or 0))
    return lines


def read_line(*, name: str, cells: Mapping[str, str], vocabulary: Vocabulary) -> ReadLine:
    """Return one line typed at a desk; ``name`` stands for the file in faults.

    Raises InputFaults with all that is wrong with it.
    """
    reader = _RowReader(name=name, row=Row(number=1, cells=cells), vocabulary=vocabulary)
    line = reader.read()
    if line is None:
        raise InputFaults(dataclasses.replace(fault, row=None) for fault in reader.faults)
    return line if line.number else dataclasses.replace(line, number=1)


def fold(text: str) -> str:
    """Return text as words are looked up: lower case, single spaces."""
    return " ".join(text.casefold().split())


def _read_each(
    name: str, rows: Iterable[Row], vocabulary: Vocabulary, faults: list[Fault]
) -> Iterable[ReadLine]:
    for row in rows:
        reader = _RowReader(name=name, row=row, vocabulary=vocabulary)
        line = reader.read()
        faults.extend(reader.faults)
        if line is not None:
            yield line


def _number(lines: Iterable[ReadLine]) -> list[ReadLine]:
    """Lines without a number count on within their order, in the order of the file."""
    last: defaultdict[tuple[str, str], int] = defaultdict(int)
    numbered = []
    for line in lines:
        key = (fold(line.customer), line.order)
        number = line.number or last[key] + 1
        last[key] = max(last[key], number)
        numbered.append(dataclasses.replace(line, number=number))
    return numbered


def _twice(name: str, lines: Iterable[ReadLine]) -> Iterable[Fault]:
    seen: dict[tuple[str, str, int], ReadLine] = {}
    for line in lines:
        key = (fold(line.customer), line.order, line.number)
        first = seen.setdefault(key, line)
        if first is line:
            continue
        yield Fault(
            file=name,
            row=line.row,
            field="line",
            value=f"{line.order}/{line.number}",
            problem=(
                f"order {line.order} of {line.customer} has line {line.number} already, in row "
                f"{first.row}"
            ),
            accepted="each line of an order once",
        )


class _RowReader:
    """Reads one row and remembers every fault, so that all are told together."""

    def __init__(self, *, name: str, row: Row, vocabulary: Vocabulary) -> None:
        self.name, self.row, self.vocabulary = name, row, vocabulary
        self.cells = {column: row.cells.get(column, "") for column in COLUMNS}
        self.faults: list[Fault] = []

    def read(self) -> ReadLine | None:
        for column, accepted in _NEVER_EMPTY.items():
            if not self.cells[column]:
                self._fault(column, "there is nothing here", accepted)
        self._name("order", LONGEST_ORDER)
        self._name("customer", LONGEST_CUSTOMER)
        number = self._line_number()
        quantity = self._try("quantity", self._quantity)
        cable = self._try("cable", self._cable)
        ends = tuple(self._try(column, self._connectors) for column in ("end_a", "end_b"))
        length = self._try("length", self._length)
        colours = self._try("colour", self._colours)
        space = self._try("space", self._space)
        adapters = self._try("adapters", self._adapters)
        warmest = self._try("temperature", self._temperature)
        due = self._try("due", self._due)
        wish = self._try("set", self._set)
        # Where there is no length, one that any tolerance fits, so that its own faults are told.
        self._nominal_mm = _ANY_LENGTH_MM if length is None else round(length[0] * 1000)
        tolerance = self._try("tolerance", self._tolerance)
        if ends[0] and ends[1]:
            self._pair_of_ends(ends[0], ends[1])
        if colours and quantity and len(colours[0]) not in (0, 1, quantity):
            self._fault(
                "colour",
                f"{len(colours[0])} colours for {quantity} cables",
                "one colour, or one for each cable",
            )
        if self.faults:
            return None
        # Every reader that came back empty has told its fault above.
        assert quantity
        assert cable
        assert ends[0]
        assert ends[1]
        assert length
        assert wish
        assert tolerance
        assert colours
        assert space
        assert adapters
        assert warmest
        assert due
        return ReadLine(
            row=self.row.number,
            cells=self.cells,
            order=self.cells["order"],
            number=number,
            customer=" ".join(self.cells["customer"].split()),
            typed=self.cells["typed"],
            quantity=quantity,
            cable_code=cable[0],
            signal_text=self.cells["signal"],
            ends=(ends[0], ends[1]),
            length_m=length[0],
            length_read_as=length[1],
            length_approximate=length[2],
            unit_family=length[3],
            colours=colours[0],
            space=space[0],
            adapters=adapters[0],
            warmest_celsius=warmest[0],
            due=due[0],
            tolerance=tolerance[0],
            tolerance_question=tolerance[1],
            wish=wish,
        )

    def _fault(self, field: str, problem: str, accepted: str) -> None:
        self.faults.append(
            Fault(
                file=self.name,
                row=self.row.number,
                field=field,
                value=self.cells[field] or None,
                problem=problem,
                accepted=accepted,
            )
        )

    def _try(self, field: str, reader: Callable[[str, str], _T | None]) -> _T | None:
        """Readers return None where they have told their fault themselves."""
        try:
            return reader(field, self.cells[field])
        except UnreadableQuantity as error:
            self._fault(field, f"this is not a {error.quantity}", error.accepted)
        return None

    def _name(self, field: str, longest: int) -> None:
        text = self.cells[field]
        if len(text) > longest or not all(letter.isprintable() for letter in text):
            self._fault(field, "this cannot be kept", f"1 to {longest} characters on one line")

    def _line_number(self) -> int:
        typed = self.cells["line"]
        if not typed:
            return 0
        if typed.isascii() and typed.isdigit() and len(typed) <= 4 and int(typed) > 0:
            return int(typed)
        self._fault("line", "this is not a line number", "a whole number, 1 to 9999, or nothing")
        return 0

    def _quantity(self, field: str, typed: str) -> int | None:
        reading = read_count(typed)
        if reading.value is None:
            self._fault(field, f"this can be read in two ways: {reading.question}", COUNTS)
            return None
        if reading.value <= MOST_OF_ONE_LINE:
            return reading.value
        self._fault(field, "more than one line may hold", f"1 to {MOST_OF_ONE_LINE} cables")
        return None

    def _cable(self, field: str, typed: str) -> tuple[str | None] | None:
        if fold(typed) == YOU_CHOOSE:
            return (None,)
        code = self.vocabulary.cables.get(fold(typed))
        if code is not None:
            return (code,)
        self._fault(
            field,
            "this cable is not in the catalogue",
            f'{_near(typed, self.vocabulary.cable_spellings)}, or "{YOU_CHOOSE}"',
        )
        return None

    def _connectors(self, field: str, typed: str) -> tuple[str, ...] | None:
        codes = self.vocabulary.connectors.get(fold(typed))
        if codes:
            return codes
        self._fault(
            field,
            "this connector is not in the catalogue",
            _near(typed, self.vocabulary.connector_spellings),
        )
        return None

    def _pair_of_ends(self, end_a: tuple[str, ...], end_b: tuple[str, ...]) -> None:
        light = [
            any(code in self.vocabulary.light_connectors for code in end) for end in (end_a, end_b)
        ]
        if light[0] != light[1]:
            self._fault(
                "end_b",
                f"{self.cells['end_a']} and {self.cells['end_b']} are an impossible pair: one "
                "carries light, the other electricity",
                "two ends of one kind; a converter is a device, not a cable",
            )

    def _length(self, field: str, typed: str) -> tuple[float, str, bool, str] | None:
        context = LengthContext(route=self.cells["space"] or None)
        reading = read_length(typed, context=context)
        if reading.question is not None:
            self._fault(field, f"this can be read in two ways: {reading.question}", LENGTHS)
            return None
        if reading.count not in (None, 1):
            self._fault(field, "this column holds the length of one cable", LENGTHS)
            return None
        assert reading.length_m is not None
        family = "ft" if reading.unit_written in ("ft", "in", "yd") else "m"
        return reading.length_m, reading.read_as or typed, reading.approximate, family

    def _colours(self, field: str, typed: str) -> tuple[tuple[str, ...]] | None:
        if not typed:
            return ((),)
        words = typed.replace("/", ",").replace(" and ", ",").split(",")
        found = [read_colour(word) for word in words]
        if all(found):
            return (tuple(colour for colour in found if colour),)
        self._fault(field, "not a colour that is known", ", ".join(COLOUR_NAMES.values()))
        return None

    def _space(self, field: str, typed: str) -> tuple[Place | None] | None:
        if not typed:
            return (None,)
        space = read_space(typed)
        if space is not None:
            return (space,)
        self._fault(field, "not a place that is known", f"{PLACES}, or nothing")
        return None

    def _adapters(self, field: str, typed: str) -> tuple[int] | None:
        if not typed:
            return (0,)
        # Python refuses to make a number of thousands of digits, so their count is looked at first.
        if typed.isascii() and typed.isdigit() and len(typed) <= 3 and int(typed) <= MOST_ADAPTERS:
            return (int(typed),)
        self._fault(
            field,
            "this is no number of adapters",
            f"how many couplers, barrels and patch points lie in the run, 0 to {MOST_ADAPTERS}",
        )
        return None

    def _temperature(self, field: str, typed: str) -> tuple[float | None] | None:
        if not typed:
            return (None,)
        reading = read_temperature(typed)
        if reading.value is None:
            self._fault(
                field,
                f"this can be read in two ways: {reading.question}",
                "such as 40 °C or 104 °F",
            )
            return None
        if not COLDEST_CELSIUS <= reading.value <= HOTTEST_CELSIUS:
            self._fault(
                field,
                "no cable lies there",
                f"{COLDEST_CELSIUS:g} to {HOTTEST_CELSIUS:g} °C, the warmest that the run gets",
            )
            return None
        return (reading.value,)

    def _due(self, field: str, typed: str) -> tuple[dt.date | None] | None:
        if not typed:
            return (None,)
        reading = read_date(typed)
        if reading.question is not None:
            self._fault(
                field, f"this can be read in two ways: {reading.question}", f"{DATES}, or nothing"
            )
            return None
        return (reading.value,)

    def _set(self, field: str, typed: str) -> SetWish | None:
        wish = read_set(typed)
        if wish is None:
            self._fault(field, "not a wish for a set that is known", SETS)
        elif wish.kind is SetKind.GROUPS and fold(self.cells["quantity"]) == "1":
            self._fault(field, "one cable makes no group", SETS)
        return wish

    def _tolerance(self, _field: str, typed: str) -> tuple[LengthTolerance | None, str | None]:
        reading = read_tolerance(typed, nominal_mm=self._nominal_mm)
        return reading.value, reading.question


def _spelt(word: str, codes: Iterable[str]) -> str:
    """A code in its own spelling, a customer's word as it is looked up."""
    return next((code for code in codes if fold(code) == word), word)


@functools.lru_cache(maxsize=4096)
def _near(typed: str, words: tuple[tuple[str, str], ...]) -> str:
    """What was perhaps meant. Remembered: one wrong word may stand in every row of a long file."""
    spellings = dict(words)
    # The search takes as long as the text is; no word of a catalogue is so long.
    wanted = fold(typed)[:_LONGEST_WORD]
    close = difflib.get_close_matches(wanted, list(spellings), n=4, cutoff=0.5)
    if close:
        return "perhaps " + ", ".join(sorted(spellings[word] for word in close))
    shortest = sorted(spellings, key=lambda word: (len(word), word))[:12]
    found = ", ".join(sorted(spellings[word] for word in shortest))
    return f"a code or a customer's word for one, such as {found}"
