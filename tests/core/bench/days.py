"""The demo workshop's settings, people and batches, and any small line Hypothesis can think of."""

from hypothesis import strategies as st

from reelwright.core.bench import (
    Batch,
    BenchProblem,
    ChangeOverRule,
    Line,
    Person,
    Station,
    StationSetting,
    StationWork,
    Weights,
)

RULE = ChangeOverRule(
    first_article_s=180,
    program_s=120,
    blade_set_s=360,
    die_s=90,
    test_adapters_s=240,
    weld_horn_s=600,
)
WEIGHTS = Weights(change_over=1.0, late=1.0)
QUALIFIED = frozenset({Station.STRIP, Station.PRESS, Station.SOLDER, Station.WELD, Station.TEST})


def setting(
    program: str, dies: set[str], adapters: set[str], blades: str = "PVC"
) -> StationSetting:
    """A coax setting in one line."""
    return StationSetting(
        program=program,
        blade_set=blades,
        dies=frozenset(dies),
        test_adapters=frozenset(adapters),
        weld_horn=None,
    )


SETTINGS = {
    "T-01+T-11": setting("P-01 and P-11", {"1.60", "8.23"}, {"BNC", "F"}),
    "T-02": setting("P-02", {"1.60", "6.48"}, {"BNC"}),
    "T-03": setting("P-03", {"1.07", "4.52"}, {"BNC"}),
    "T-05": setting("P-05", {"1.60", "7.36"}, {"BNC"}, "FEP"),
    "T-08": setting("P-08", {"1.07", "6.48"}, {"phono"}),
    "T-09": setting("P-09", {"1.60", "6.48"}, {"phono"}),
}

COAX_S = {
    Station.CUT: 40,
    Station.STRIP: 30,
    Station.PRESS: 114,
    Station.DRESS: 24,
    Station.INSPECT: 48,
    Station.TEST: 96,
    Station.LABEL: 30,
    Station.PACK: 72,
}
COAX_PEOPLE = frozenset({Station.CUT, Station.STRIP, Station.PRESS, Station.DRESS})
ANA = Person(
    id="Ana",
    stations=COAX_PEOPLE | {Station.INSPECT, Station.TEST, Station.LABEL, Station.PACK},
    from_s=0,
    until_s=8 * 3600,
)
BO = Person(
    id="Bo",
    stations=frozenset({Station.SOLDER, Station.WELD, Station.INSPECT, Station.LABEL}),
    from_s=0,
    until_s=8 * 3600,
)
CY = Person(id="Cy", stations=frozenset({Station.CUT, Station.PACK}), from_s=0, until_s=8 * 3600)


def batch(
    name: str,
    setup: StationSetting,
    count: int,
    *,
    due_s: int | None = None,
    ready_s: int = 0,
    line: str = "coax",
    each_s: dict[Station, int] | None = None,
    qualified: tuple[str, ...] = ("Ana",),
) -> Batch:
    """A batch of ``count`` equal cables in one line."""
    return Batch(
        id=name,
        line=line,
        setting=setup,
        piece_ids=tuple(f"{name}-{number}" for number in range(count)),
        work=tuple(
            StationWork(station=station, duration_s=seconds * count)
            for station, seconds in (each_s or COAX_S).items()
        ),
        ready_s=ready_s,
        due_s=due_s,
        late_weight=1.0,
        qualified=frozenset(qualified),
    )


def day(
    *batches: Batch,
    now: StationSetting | None = None,
    weights: Weights = WEIGHTS,
    people: tuple[Person, ...] = (ANA, BO, CY),
) -> BenchProblem:
    """The batches of one day on the lines they name."""
    names = sorted({"coax", *(one.line for one in batches)})
    return BenchProblem(
        batches=batches,
        people=people,
        lines=tuple(Line(name=name, setting_now=now if name == "coax" else None) for name in names),
        rule=RULE,
        weights=weights,
        qualified_stations=QUALIFIED,
    )


@st.composite
def any_day(draw: st.DrawFn, *, most: int = 6) -> BenchProblem:
    """A few coax batches with hours, and perhaps one at the solder bench."""
    batches = [
        batch(
            f"B-{number}",
            SETTINGS[draw(st.sampled_from(sorted(SETTINGS)))],
            draw(st.integers(1, 12)),
            due_s=draw(st.sampled_from([None, 3600, 7200, 14_400])),
            ready_s=draw(st.sampled_from([0, 0, 1800])),
        )
        for number in range(draw(st.integers(1, most)))
    ]
    if draw(st.booleans()):
        batches.append(
            batch(
                "loom",
                StationSetting(
                    program=None,
                    blade_set=None,
                    dies=frozenset(),
                    test_adapters=frozenset(),
                    weld_horn=None,
                ),
                12,
                line="solder",
                each_s={Station.CUT: 58, Station.SOLDER: 360, Station.LABEL: 60, Station.PACK: 72},
                qualified=("Bo",),
            )
        )
    return day(
        *batches,
        now=SETTINGS["T-02"],
        weights=Weights(change_over=draw(st.sampled_from([1.0, 5.0])), late=1.0),
    )
