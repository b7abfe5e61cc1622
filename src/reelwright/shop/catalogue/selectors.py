"""Every read of the catalogue. Values of the core come out, never rows, except where said."""

import datetime
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from difflib import get_close_matches

from reelwright.core.errors import UnknownCode
from reelwright.core.parts.cable import Cable
from reelwright.core.parts.connector import Connector
from reelwright.core.pricing.price import Rates
from reelwright.core.verdicts import Basis, Source
from reelwright.shop.catalogue import models as rows
from reelwright.shop.catalogue.to_core import cable_value, connector_value
from reelwright.shop.people.selectors import workshop


@dataclass(frozen=True, kw_only=True)
class CableTerms:
    """What the shop adds to a cable: its price, its remnant rule and the colours offered."""

    code: str
    price_per_m: Decimal
    smallest_remnant_mm: int
    colours: tuple[str, ...]


@dataclass(frozen=True, kw_only=True)
class ConnectorTerms:
    """What the shop adds to a connector: its price, and its loss in dB (None: not known)."""

    code: str
    price: Decimal
    loss_db: float | None
    loss_source: Source | None


@dataclass(frozen=True, kw_only=True)
class Pricing:
    """The price rules in force; money in ``currency``, shares from 0 to 1."""

    valid_from: datetime.date
    currency: str
    labour_per_hour: Decimal
    order_handling: Decimal
    rush_floor: Decimal
    first_pass_yield: Decimal
    gross_margin: Decimal

    @property
    def rates(self) -> Rates:
        """The same as the pricing engine takes it."""
        return Rates(
            currency=self.currency,
            labour_per_hour=self.labour_per_hour,
            order_handling=self.order_handling,
            first_pass_yield=self.first_pass_yield,
            margin=self.gross_margin,
        )


def fold(text: str) -> str:
    """Return text as aliases are stored: lower case, single spaces."""
    return " ".join(text.casefold().split())


def cables() -> dict[str, Cable]:
    """Return every cable by code; three queries."""
    found = rows.CableType.objects.prefetch_related("layers", "loss_points")
    return {row.code: cable_value(row) for row in found}


def connectors() -> dict[str, Connector]:
    """Return every connector by code; one query."""
    found = rows.ConnectorType.objects.select_related("drawing")
    return {row.code: connector_value(row) for row in found}


def cable_terms() -> dict[str, CableTerms]:
    """Return price, remnant rule and colours of every cable by code."""
    return {
        row.code: CableTerms(
            code=row.code,
            price_per_m=row.price_per_m,
            smallest_remnant_mm=row.smallest_remnant_mm,
            colours=tuple(colour.letters for colour in row.colours.all()),
        )
        for row in rows.CableType.objects.prefetch_related("colours")
    }


def connector_terms() -> dict[str, ConnectorTerms]:
    """Return price and loss of every connector by code."""
    return {
        row.code: ConnectorTerms(
            code=row.code,
            price=row.price,
            loss_db=row.loss_db,
            loss_source=(
                Source(text=row.loss_source, basis=Basis(row.loss_basis))
                if row.loss_source
                else None
            ),
        )
        for row in rows.ConnectorType.objects.all()
    }


def cable_words() -> dict[str, str]:
    """Return every word that names a cable, folded, with the code it means; codes win."""
    words = dict(rows.CableAlias.objects.values_list("text", "cable__code"))
    codes = rows.CableType.objects.values_list("code", flat=True)
    return words | {fold(code): code for code in codes}


def connector_words() -> dict[str, tuple[str, ...]]:
    """Return every word that names connectors, folded, with the codes it may mean, sorted.

    A code names one; a customer's word (``BNC``) a family, of which the cable then picks.
    """
    words: defaultdict[str, list[str]] = defaultdict(list)
    for word, code in rows.ConnectorAlias.objects.values_list("text", "connector__code"):
        words[word].append(code)
    codes = rows.ConnectorType.objects.values_list("code", flat=True)
    families = {word: tuple(sorted(meant)) for word, meant in words.items()}
    return families | {fold(code): (code,) for code in codes}


def find_cable(text: str) -> str:
    """Return the code of the cable that ``text`` names, by code or by a customer's word for it.

    Raises UnknownCode with the nearest codes and words.
    """
    words = cable_words()
    if fold(text) in words:
        return words[fold(text)]
    raise UnknownCode(kind="cable", code=text, near=_near(text, words))


def find_connectors(text: str) -> tuple[str, ...]:
    """Return the codes of all connectors that ``text`` may mean, sorted.

    Raises UnknownCode with the nearest codes and words.
    """
    words = connector_words()
    if fold(text) in words:
        return words[fold(text)]
    raise UnknownCode(kind="connector", code=text, near=_near(text, words))


def _near(text: str, words: Mapping[str, str | tuple[str, ...]]) -> list[str]:
    """Return what was perhaps meant: a code in its own spelling, a word as stored."""
    close = get_close_matches(fold(text), list(words), n=3, cutoff=0.6)
    codes = {
        fold(code): code
        for meant in words.values()
        for code in ((meant,) if isinstance(meant, str) else meant)
    }
    return [codes.get(word, word) for word in close]


def pricing_on(day: datetime.date) -> Pricing:
    """Return the price rules in force on a day. Raises UnknownCode when there are none yet."""
    row = rows.PriceRules.objects.filter(valid_from__lte=day).order_by("-valid_from").first()
    if row is None:
        raise UnknownCode(kind="price rules in force on", code=day.isoformat())
    return Pricing(
        valid_from=row.valid_from,
        currency=workshop().currency,
        labour_per_hour=row.labour_per_hour,
        order_handling=row.order_handling,
        rush_floor=row.rush_floor,
        first_pass_yield=row.first_pass_yield,
        gross_margin=row.gross_margin,
    )
