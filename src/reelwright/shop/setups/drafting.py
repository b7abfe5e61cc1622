"""Opening set-ups and drafting their revisions; ``services`` hands both on."""

import datetime
from dataclasses import fields

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.catalogue.models import CableType, ConnectorType
from reelwright.shop.catalogue.selectors import cables, connectors
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.setups.models import Revision, RevisionNote, RevisionOperation, SetUp
from reelwright.shop.setups.opening import code_problem, why_not_open
from reelwright.shop.setups.ordering import require_order_possible
from reelwright.shop.setups.overrides import fit_overrides
from reelwright.shop.setups.pair import pair_now
from reelwright.shop.setups.pull_rules import require_rules_kept
from reelwright.shop.setups.sheet import Numbers
from reelwright.shop.setups.states import NoteKind, State
from reelwright.shop.transactions import write_transaction

FIRST_LETTER = "A"
_OWN_TABLES = ("minimum_pull_source", "pull_rules", "steps", "cautions", "order")


@write_transaction()
def set_up_add(*, by: Person, code: str, cable_code: str, connector_code: str) -> SetUp:
    """Open a set-up for a cable with a connector; it has no revision yet.

    Raises ShopRuleBroken ``not_allowed``, ``set_up_exists``; UnknownCode.
    """
    require_may(by, Action.DRAFT_SETUPS)
    cable = CableType.objects.filter(code=cable_code).first()
    if cable is None:
        raise UnknownCode(kind="cable", code=cable_code)
    connector = ConnectorType.objects.filter(code=connector_code).first()
    if connector is None:
        raise UnknownCode(kind="connector", code=connector_code)
    there = (
        SetUp.objects.filter(code=code).first()
        or SetUp.objects.filter(cable=cable, connector=connector).first()
    )
    if there is not None:
        raise ShopRuleBroken(
            "set_up_exists",
            f"{there.code} exists already, for {there.cable} with {there.connector}.",
            set_up=there.code,
        )
    return SetUp.objects.create(code=code, cable=cable, connector=connector)


@write_transaction()
def set_up_open(
    *,
    by: Person,
    code: str,
    cable_code: str,
    connector_code: str,
    numbers: Numbers,
    on: datetime.date,
) -> Revision:
    """Open a set-up and draft its revision A, both or neither.

    Raises ShopRuleBroken ``not_allowed``; ``code_unusable`` also where another set-up has it;
    ``pair_not_possible`` where what is computed speaks against the pair and no lead says that it
    is possible; ``set_up_exists`` for the pair; and what ``revision_draft`` raises; UnknownCode.
    """
    require_may(by, Action.DRAFT_SETUPS)
    problem = code_problem(code)
    if problem:
        raise ShopRuleBroken("code_unusable", problem, set_up=code)
    said = fit_overrides().get((cable_code, connector_code))
    against = why_not_open(pair_now(cable_code, connector_code), said)
    if against:
        raise ShopRuleBroken("pair_not_possible", against)
    set_up_add(by=by, code=code, cable_code=cable_code, connector_code=connector_code)
    return revision_draft(by=by, set_up_code=code, letter=FIRST_LETTER, numbers=numbers, on=on)


@write_transaction()
def revision_draft(
    *, by: Person, set_up_code: str, letter: str, numbers: Numbers, on: datetime.date
) -> Revision:
    """Draft the next revision of a set-up. It may lack numbers: what is missing is always shown.

    Raises ShopRuleBroken ``not_allowed``, ``letter_not_next``, ``pull_rules_silent`` where the rule
    set chosen has no least pull for this wire, ``pull_under_rules`` where the minimum lies below
    it, ``order_impossible`` where the order laid down cannot be carried out; UnknownCode.
    """
    require_may(by, Action.DRAFT_SETUPS)
    set_up = SetUp.objects.select_for_update().filter(code=set_up_code).first()
    if set_up is None:
        raise UnknownCode(kind="set-up", code=set_up_code)
    newest = set_up.revisions.order_by("-letter").values_list("letter", flat=True).first()
    if not (len(letter) == 1 and "A" <= letter <= "Z") or (newest is not None and letter <= newest):
        raise ShopRuleBroken(
            "letter_not_next",
            f"{letter!r} cannot be the next revision of {set_up_code}"
            + (f": {newest} is there already." if newest else ". Accepted: A to Z."),
            letter=letter,
            newest=newest,
        )
    if numbers.pull_rules is not None:
        require_rules_kept(cables()[set_up.cable.code], numbers)
    require_order_possible(
        cables()[set_up.cable.code], connectors()[set_up.connector.code], numbers
    )
    source = numbers.minimum_pull_source
    row = Revision.objects.create(
        set_up=set_up,
        letter=letter,
        state=State.DRAFTED.value,
        drafted_on=on,
        drafted_by=by,
        minimum_pull_source="" if source is None else source.text,
        minimum_pull_basis="" if source is None else source.basis.value,
        pull_rules="" if numbers.pull_rules is None else numbers.pull_rules.value,
        **{
            field.name: getattr(numbers, field.name)
            for field in fields(Numbers)
            if field.name not in _OWN_TABLES
        },
    )
    RevisionNote.objects.bulk_create(
        RevisionNote(revision=row, kind=kind.value, position=position, text=text)
        for kind, texts in ((NoteKind.STEP, numbers.steps), (NoteKind.CAUTION, numbers.cautions))
        for position, text in enumerate(texts, start=1)
    )
    RevisionOperation.objects.bulk_create(
        RevisionOperation(revision=row, position=position, code=code)
        for position, code in enumerate(numbers.order, start=1)
    )
    return row
