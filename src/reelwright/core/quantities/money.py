"""Money: a decimal amount with its currency; never a float."""

from dataclasses import dataclass
from decimal import Decimal

from reelwright.core.errors import BadValue

_CODE_LENGTH = 3


@dataclass(frozen=True, kw_only=True)
class Money:
    """``amount`` in ``currency``, the three letters of ISO 4217. Raises BadValue otherwise."""

    amount: Decimal
    currency: str

    def __post_init__(self) -> None:
        if not isinstance(self.amount, Decimal) or not self.amount.is_finite():
            raise BadValue(
                owner="Money", field="amount", value=self.amount, accepted="a finite Decimal"
            )
        code = self.currency
        if len(code) != _CODE_LENGTH or not (code.isascii() and code.isalpha() and code.isupper()):
            raise BadValue(
                owner="Money",
                field="currency",
                value=code,
                accepted="three capital letters of ISO 4217, such as EUR",
            )
