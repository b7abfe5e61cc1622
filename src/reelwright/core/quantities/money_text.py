"""Amounts of money as people write them."""

from decimal import Decimal

from reelwright.core.errors import UnreadableQuantity
from reelwright.core.quantities.cursor import Cursor, Doubt, NotThis, cursor_over
from reelwright.core.quantities.money import Money
from reelwright.core.quantities.number_grammar import take_number
from reelwright.core.quantities.reading import Reading, refuse_two_values
from reelwright.core.quantities.tokens import Kind, Token

ACCEPTED = "an amount of zero or more, such as 38.00 or 38.00 EUR"
_OF_SIGN = {"€": "EUR", "£": "GBP"}
_CODE_LENGTH = 3


def _is_currency(token: Token | None) -> bool:
    return (
        token is not None
        and token.kind is Kind.WORD
        and (token.text in "€£$" or (len(token.text) == _CODE_LENGTH and token.text.isupper()))
    )


def _code(token: Token, currency: str) -> str:
    if token.text == "$":
        if currency.endswith("D"):
            return currency
        raise Doubt("“$”: which dollar is meant?")
    return _OF_SIGN.get(token.text, token.text)


def _take_money(cursor: Cursor, currency: str) -> Money:
    before = cursor.take() if _is_currency(cursor.peek()) else None
    number = take_number(cursor)
    if number is None:
        raise NotThis("no number")
    refuse_two_values(number)
    if number.dotted_group:
        whole, part = number.text.split(".")
        raise Doubt(f"“{number.text}”: is it {whole}{part} or {whole}.{part}?")
    after = cursor.take() if _is_currency(cursor.peek()) else None
    if not cursor.at_end:
        raise NotThis("words are left over")
    written = {_code(token, currency) for token in (before, after) if token is not None}
    if len(written) > 1:
        raise Doubt(f"{' or '.join(sorted(written))}: in which currency?")
    if written and written != {currency}:
        raise Doubt(f"{number.text} {written.pop()}: how much is that in {currency}?")
    amount = Decimal(number.value.numerator) / Decimal(number.value.denominator)
    return Money(amount=amount, currency=currency)


def read_money(typed: str, *, currency: str) -> Reading[Money]:
    """Read an amount in the workshop's ``currency`` (ISO 4217); another currency is asked about."""
    cursor = cursor_over(typed, quantity="amount of money", accepted=ACCEPTED)
    try:
        value = _take_money(cursor, currency)
    except Doubt as doubt:
        return Reading(typed=typed, value=None, unit=currency, question=doubt.question)
    except NotThis as trouble:
        raise UnreadableQuantity(
            typed=typed, quantity="amount of money", accepted=ACCEPTED
        ) from trouble
    return Reading(typed=typed, value=value, unit=currency, question=None)
