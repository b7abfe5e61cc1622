"""A search from its beginning to the window that a set-up names, and every refusal on the way."""

from collections.abc import Callable

import pytest
from django.db import DatabaseError, IntegrityError, connection, transaction

from reelwright.core.errors import InputFaults, ShopRuleBroken, UnknownCode
from reelwright.core.trials.guess import Peak
from reelwright.core.trials.record import Seen, Trial
from reelwright.core.trials.weld_energy import KnownGauge
from reelwright.core.trials.window import Window
from reelwright.shop.setups import services as setups
from reelwright.shop.setups.to_core import WeldedGauge
from reelwright.shop.trials import gauges, models, selectors, services
from reelwright.shop.trials.gauges import known_gauges
from reelwright.shop.trials.standing import standing, standing_if_known
from reelwright.shop.trials.states import Process, SearchState
from tests.shop.refusals import refused
from tests.shop.setups.conftest import COMPLETE
from tests.shop.trials.conftest import MADE, begin, text, trial
from tests.small_world import CABLE, CONNECTOR, TODAY, SmallWorld

TABLES = (
    "searchmove",
    "searchsetting",
    "searchresponse",
    "searchlooks",
    "trialfile",
    "trialmade",
    "trialreading",
    "trialseen",
    "trialtakenback",
    "windowfound",
    "windowcited",
    "weldgauge",
)


def test_what_was_asked_comes_back_as_it_was(begun: str) -> None:
    """Settings, limits, first guess and demand are the core's own values again."""
    frame = selectors.search_frame(begun)
    assert frame == text().frame
    assert isinstance(frame.responses[0].guess, Peak)
    view = selectors.search(begun)
    assert (view.code, view.state, view.opened_by) == ("W-01", SearchState.OPEN, "Ben")
    assert (view.cable_code, view.connector_code) == (CABLE.code, CONNECTOR.code)


def test_codes_count_on(world: SmallWorld, begun: str) -> None:
    """The second search of the same pair has a number of its own, and open ones come first."""
    assert begin(world) == "W-02"
    services.search_close(by=world.ada, search_code=begun, reason="Given up.", on=TODAY)
    found = selectors.searches(cable_code=CABLE.code, connector_code=CONNECTOR.code)
    assert [one.code for one in found] == ["W-02", "W-01"]
    assert selectors.searches(cable_code="NONE") == ()


def test_trials_come_back_as_they_were_made(begun: str, record: Callable[..., int]) -> None:
    """Unequal repeats in their order, a failure, and numbers that count on."""
    numbers = [record(values, pulls) for values, pulls in MADE]
    assert numbers == [1, 2, 3, 4, 5, 6]
    problem = selectors.search_problem(begun)
    assert [one.values_of("pull") for one in problem.trials] == [pulls for _, pulls in MADE]
    assert [one.values for one in problem.trials] == [values for values, _ in MADE]
    assert problem.trials[-1].failure == "cut through"


def test_what_was_seen_is_kept(world: SmallWorld) -> None:
    """Looks of a search come back with how many were ok of how many."""
    from reelwright.core.trials.search_text import read_search
    from tests.docs.test_trials_guide import SEARCH

    code = services.search_begin(
        by=world.ada,
        text=read_search(SEARCH, file="s"),
        process=Process.OTHER,
        cable_code=CABLE.code,
        connector_code=CONNECTOR.code,
        on=TODAY,
    )
    seen = Seen(looks="unburnt", good=2, seen_count=3)
    made = Trial(number=9, values=(300, 2.8), readings=(), seen=(seen,), failure=None)
    assert services.trial_record(by=world.ben, search_code=code, trial=made, on=TODAY) == 1
    assert selectors.search_problem(code).trials[0].seen_of("unburnt") == seen


def test_a_trial_that_contradicts_the_search_is_not_written(
    begun: str, record: Callable[..., int]
) -> None:
    """Out of range, a single reading first, another pull at the same setting: nothing is kept."""
    with pytest.raises(InputFaults, match="outside what may be tried"):
        record((500.0, 2.8), (266.0, 271.0))
    with pytest.raises(InputFaults, match="no reading was ever repeated"):
        record((300.0, 2.8), (266.0,))
    assert not models.TrialMade.objects.exists()
    record((300.0, 2.8), (266.0, 271.0, 259.0))
    record((310.0, 2.8), (262.0, 268.0, 265.0))
    with pytest.raises(InputFaults, match="set the same as an earlier trial"):
        record((300.0, 2.8), (126.0, 131.0, 119.0))
    assert models.TrialMade.objects.count() == 2


def test_a_mistake_is_taken_back_with_its_reason(
    world: SmallWorld, begun: str, record: Callable[..., int]
) -> None:
    """It counts no more, stays readable with the reason, and its number is not given again."""
    record((300.0, 2.8), (266.0, 271.0, 259.0))
    record((310.0, 2.8), (162.0, 168.0, 165.0))
    services.trial_take_back(
        by=world.ben, search_code=begun, number=2, reason=" Wrong horn. ", on=TODAY
    )
    assert [one.number for one in selectors.search_problem(begun).trials] == [1]
    assert [one.taken_back for one in selectors.trials_of(begun)] == ["", "Wrong horn."]
    assert selectors.search(begun).trial_count == 1
    assert record((310.0, 2.8), (262.0, 268.0, 265.0)) == 3
    with refused("taken_back_already"):
        services.trial_take_back(
            by=world.ben, search_code=begun, number=2, reason="Again.", on=TODAY
        )
    with refused("reason_missing"):
        services.trial_take_back(by=world.ben, search_code=begun, number=1, reason=" ", on=TODAY)
    with pytest.raises(UnknownCode):
        services.trial_take_back(by=world.ben, search_code=begun, number=9, reason="x", on=TODAY)


def test_faults_that_were_there_before_do_not_stop_a_good_trial(
    world: SmallWorld, begun: str, record: Callable[..., int]
) -> None:
    """Once the only repeated trial is taken back, a single reading may stand, and more may come."""
    record((300.0, 2.8), (266.0, 271.0, 259.0))
    record((310.0, 2.8), (262.0,))
    services.trial_take_back(by=world.ben, search_code=begun, number=1, reason="Burr.", on=TODAY)
    with pytest.raises(InputFaults):
        selectors.search_problem(begun)
    record((320.0, 2.8), (261.0,))
    record((300.0, 2.8), (265.0, 270.0, 262.0))
    assert len(selectors.search_problem(begun).trials) == 3


def test_the_window_is_written_down_as_the_engine_gives_it(world: SmallWorld, tried: str) -> None:
    """Centre, spans and claims are those of the standing; the search is closed by it."""
    problem = selectors.search_problem(tried)
    found = standing(problem, most_trials=None)
    assert isinstance(found.window, Window)
    services.window_write(by=world.ada, search_code=tried, on=TODAY)
    view = selectors.search(tried)
    (window,) = view.windows
    assert view.state is SearchState.CLOSED
    assert tuple(one["centre"] for one in window.content["settings"]) == found.window.centre
    assert [(one["low"], one["high"]) for one in window.content["settings"]] == [
        (span.low, span.high) for span in found.window.spans
    ]
    assert window.content["claims"] == [check.sentence for check in found.window.checks]
    assert window.content["trials"] == [1, 2, 3, 4, 5, 6]
    assert window.centre == problem.show(found.window.centre)
    assert selectors.search_moves(tried) == (f"{TODAY}: closed, Ada. The window is written down.",)


def test_a_standing_is_kept_until_the_records_change(
    world: SmallWorld, tried: str, record: Callable[..., int]
) -> None:
    """The same records give the very same value, and one more trial asks anew."""
    first = standing(selectors.search_problem(tried), most_trials=None)
    assert standing(selectors.search_problem(tried), most_trials=None) is first
    record((270.0, 2.4), (246.0, 250.0, 241.0))
    assert standing_if_known(selectors.search_problem(tried), most_trials=None) is None


def test_no_window_is_written_where_none_is_proven(
    world: SmallWorld, begun: str, record: Callable[..., int]
) -> None:
    """The refusal names where the search stands, and the search stays open."""
    record((200.0, 1.6), (101.0, 112.0, 108.0))
    with refused("no_window"):
        services.window_write(by=world.ada, search_code=begun, on=TODAY)
    assert selectors.search(begun).is_open
    assert not models.WindowFound.objects.exists()


def test_a_closed_search_takes_no_trial_until_it_is_opened_again(
    world: SmallWorld, begun: str, record: Callable[..., int]
) -> None:
    """Closing and opening say why; each is done once; trials wait meanwhile."""
    with refused("reason_missing"):
        services.search_close(by=world.ada, search_code=begun, reason="", on=TODAY)
    with refused("search_open"):
        services.search_open_again(by=world.ada, search_code=begun, reason="x", on=TODAY)
    services.search_close(by=world.ada, search_code=begun, reason="No plugs left.", on=TODAY)
    with refused("search_closed"):
        record((300.0, 2.8), (266.0, 271.0))
    with refused("search_closed"):
        services.search_close(by=world.ada, search_code=begun, reason="Again.", on=TODAY)
    services.search_open_again(by=world.ada, search_code=begun, reason="Plugs came.", on=TODAY)
    assert record((300.0, 2.8), (266.0, 271.0)) == 1
    assert len(selectors.search_moves(begun)) == 2


def test_a_revision_of_the_same_pair_names_a_window(world: SmallWorld, tried: str) -> None:
    """It is shown with the window and with the revision, and is written down once."""
    services.window_write(by=world.ada, search_code=tried, on=TODAY)
    setups.set_up_add(
        by=world.ben, code="S-1", cable_code=CABLE.code, connector_code=CONNECTOR.code
    )
    revision = setups.revision_draft(
        by=world.ben, set_up_code="S-1", letter="A", numbers=COMPLETE, on=TODAY
    ).pk
    (window,) = selectors.search(tried).windows
    services.window_cite(by=world.ben, window_id=window.id, revision_id=revision, on=TODAY)
    ((code, cited),) = selectors.windows_cited(revision)
    assert (code, cited.cited) == (tried, ("S-1 rev A",))
    with refused("cited_already"):
        services.window_cite(by=world.ben, window_id=window.id, revision_id=revision, on=TODAY)
    with pytest.raises(UnknownCode):
        services.window_cite(by=world.ben, window_id=window.id, revision_id=0, on=TODAY)


def test_gauges_that_weld_well_give_the_law_of_energy(world: SmallWorld) -> None:
    """The newest of an area counts, and the values are the core's."""
    for area_mm2, energy_j in ((2.08, 140.0), (1.31, 96.0), (2.08, 149.0)):
        services.weld_gauge_record(
            by=world.ben, area_mm2=area_mm2, energy_j=energy_j, note="bench", on=TODAY
        )
    assert [(one.area_mm2, one.energy_j) for one in selectors.weld_gauges()] == [
        (1.31, 96.0),
        (2.08, 149.0),
    ]
    assert [one.area_m2 for one in known_gauges()] == pytest.approx([1.31e-6, 2.08e-6])
    with refused("gauge_impossible"):
        services.weld_gauge_record(by=world.ben, area_mm2=0.0, energy_j=1.0, note="", on=TODAY)


def test_a_gauge_written_down_counts_until_a_set_up_of_it_is_released(
    world: SmallWorld, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Set-ups go before entries, newer entries before older, also where areas are rounded apart."""
    for area_mm2, energy_j in ((3.31, 240.0), (2.1, 140.0), (3.3, 243.0)):
        services.weld_gauge_record(
            by=world.ben, area_mm2=area_mm2, energy_j=energy_j, note="", on=TODAY
        )
    assert [one.energy_j for one in known_gauges()] == [140.0, 243.0]
    released = WeldedGauge(
        gauge=KnownGauge(area_m2=2.08e-6, energy_j=149.0),
        set_ups=("T-15", "T-21"),
        note="",
        known_on=None,
    )
    monkeypatch.setattr(gauges, "welded_gauges", lambda sheets, cables: (released,))
    found = gauges.shop_gauges()
    assert [(one.name, one.gauge.energy_j) for one in found] == [
        ("T-15, T-21", 149.0),
        ("the bench", 243.0),
    ]
    assert [one.known_on for one in found] == [None, TODAY]


def test_who_may_what(world: SmallWorld, tried: str) -> None:
    """The bench begins, tries and takes back; windows and closing are the lead's."""
    for call in (
        lambda: services.window_write(by=world.ben, search_code=tried, on=TODAY),
        lambda: services.search_close(by=world.ben, search_code=tried, reason="x", on=TODAY),
        lambda: services.trial_record(
            by=world.vic, search_code=tried, trial=trial((300.0, 2.8), (1.0, 2.0)), on=TODAY
        ),
        lambda: services.trial_take_back(
            by=world.vic, search_code=tried, number=1, reason="x", on=TODAY
        ),
        lambda: services.search_begin(
            by=world.vic,
            text=text(),
            process=Process.WELD,
            cable_code=CABLE.code,
            connector_code=CONNECTOR.code,
            on=TODAY,
        ),
    ):
        with refused("not_allowed"):
            call()


def test_evidence_is_never_changed(world: SmallWorld, tried: str) -> None:
    """Neither model nor database lets a row be changed or removed."""
    row = models.TrialReading.objects.first()
    row.value = 999.0
    with refused("append_only"):
        row.save()
    with pytest.raises(ShopRuleBroken):
        models.TrialMade.objects.update(note="x")
    for table in ("trialmade", "trialreading", "searchsetting", "searchresponse"):
        for statement in (f"UPDATE trials_{table} SET id = id", f"DELETE FROM trials_{table}"):
            with pytest.raises(DatabaseError), transaction.atomic(), connection.cursor() as cursor:
                cursor.execute(statement)


def test_every_table_of_evidence_has_its_trigger(db: None) -> None:
    """No table that only grows was forgotten in the migration."""
    from django.apps import apps

    from reelwright.shop.append_only import AppendOnly

    growing = {
        model._meta.model_name
        for model in apps.get_app_config("trials").get_models()
        if issubclass(model, AppendOnly)
    }
    assert growing == set(TABLES)
    if connection.vendor == "sqlite":
        with connection.cursor() as cursor:
            cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
            there = {name for (name,) in cursor.fetchall()}
        assert {f"trials_{table}_no_update" for table in TABLES} <= there
        assert {f"trials_{table}_no_delete" for table in TABLES} <= there


def test_the_database_keeps_no_half_peak(world: SmallWorld, begun: str) -> None:
    """Past the services, a first guess without its value is refused."""
    row = models.SearchResponse.objects.get()
    with pytest.raises(IntegrityError), transaction.atomic():
        models.SearchResponse.objects.create(
            search=row.search,
            position=2,
            name="peel",
            unit="N",
            lower_limit=5.0,
            guess_kind="peak",
            guess_setting="energy",
        )
