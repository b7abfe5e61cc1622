"""The operations of an end in their order: worked out, or as a revision lays them down."""

from collections.abc import Sequence

from reelwright.core.ends.order.laid_down import arranged, in_order, judge_laid_down
from reelwright.core.ends.order.operation import EndWork, Operation
from reelwright.core.ends.order.steps import EndSetUp, Step, end_work, steps_of, worked_out
from reelwright.core.errors import ShopRuleBroken
from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.connector import Connector
from reelwright.core.quantities.words import sentence
from reelwright.core.verdicts import Outcome
from reelwright.shop.setups.end_view import end_set_up
from reelwright.shop.setups.sheet import Numbers


def usual_operations(cable: Cable, connector: Connector) -> tuple[Operation, ...]:
    """Return the operations of a pair in their worked-out order, before any number is laid down."""
    return worked_out(_any_work(cable, connector))


def why_not_in_order(cable: Cable, connector: Connector, order: Sequence[str]) -> dict[str, str]:
    """Return what forbids an order, by code of the operation; empty: it can be carried out."""
    return _forbidding(_any_work(cable, connector), order)


def laid_down(cable: Cable, connector: Connector, order: Sequence[str]) -> tuple[str, ...]:
    """Return ``order`` as a revision keeps it: nothing where it is the worked-out one."""
    usual = tuple(each.code for each in usual_operations(cable, connector))
    return () if tuple(order) == usual else tuple(order)


def standing_order(cable: Cable, connector: Connector, order: Sequence[str]) -> tuple[str, ...]:
    """Return an order that an earlier revision laid down, of the operations that there are now."""
    if not order:
        return ()
    found = arranged(usual_operations(cable, connector), order)
    return laid_down(cable, connector, [each.code for each in found])


def require_order_possible(cable: Cable, connector: Connector, numbers: Numbers) -> None:
    """Raise ShopRuleBroken ``order_impossible`` with every reason; no order laid down is fine."""
    if not numbers.order:
        return
    against = _forbidding(_work(cable, connector, numbers), numbers.order)
    if against:
        told = " ".join(sentence(reason) for reason in against.values())
        raise ShopRuleBroken(
            "order_impossible",
            f"The end cannot be made in this order. {told}",
            operations=list(against),
        )


def steps_in_order(cable: Cable, connector: Connector, numbers: Numbers) -> tuple[Step, ...]:
    """Return the steps in the order laid down, else in the worked-out one.

    Empty where neither an order nor the whole strip is laid down.
    """
    work = _work(cable, connector, numbers)
    if not numbers.order and work.strip is None:
        return ()
    return steps_of(in_order(work, numbers.order))


def order_minds(cable: Cable, connector: Connector, numbers: Numbers) -> tuple[str, ...]:
    """Return what speaks against the order laid down as cable and connector are now, as sentences.

    A draft is refused what forbids it; what stays is what is only the worse way, and what came up
    since, when a drawing was changed.
    """
    if not numbers.order:
        return ()
    found = judge_laid_down(_work(cable, connector, numbers), numbers.order)
    return tuple(sentence(told) for _, told in found.values())


def _forbidding(work: EndWork, order: Sequence[str]) -> dict[str, str]:
    found = judge_laid_down(work, order)
    return {code: told for code, (outcome, told) in found.items() if outcome is Outcome.BAD}


def _work(cable: Cable, connector: Connector, numbers: Numbers) -> EndWork:
    set_up = end_set_up(connector.method, numbers, cable)
    return end_work(set_up, cable=cable, connector=connector)


def _any_work(cable: Cable, connector: Connector) -> EndWork:
    """The end before its numbers: the same operations, in words that name no program and no die."""
    set_up = EndSetUp(
        method=connector.method,
        strip=None,
        boot=cable.family is Family.COAX,
        program=None,
        pin_die=None,
        ferrule_die=None,
    )
    return end_work(set_up, cable=cable, connector=connector)
