"""Can this kind of cable carry the signal at all? Kind, conductors, screen, impedance class."""

from collections.abc import Iterator

from reelwright.core.parts.cable import Cable, Family
from reelwright.core.parts.impedance import ImpedanceMatch, impedance_class
from reelwright.core.parts.needs import SignalNeeds
from reelwright.core.quantities.show import show_in
from reelwright.core.signals.run import Run
from reelwright.core.verdicts import Basis, Check, Outcome, Source

_LOGIC = Source(text="number and arrangement of the conductors", basis=Basis.COMPUTED)


def judge_fitness(
    run: Run, *, signal: str, needs: SignalNeeds, families: tuple[Family, ...]
) -> tuple[Check, ...]:
    """Return the checks of kind, conductors, screen and impedance class, ends included."""
    checks = [_kind(run.cable, signal, families), *_conductors(run.cable, signal, needs)]
    if needs.impedance_ohm is not None and run.cable.family in families:
        checks += _impedances(run, signal, needs.impedance_ohm)
    return tuple(checks)


def _logic(*, name: str, fits: bool, sentence: str, value: str, limit: str) -> Check:
    return Check(
        name=name,
        outcome=Outcome.GOOD if fits else Outcome.BAD,
        sentence=sentence,
        source=_LOGIC,
        value=value,
        limit=limit,
        margin=None,
        unit="",
    )


def _kind(cable: Cable, signal: str, families: tuple[Family, ...]) -> Check:
    fits = cable.family in families
    return _logic(
        name="kind of cable",
        fits=fits,
        sentence=(
            f"{cable.code} is {cable.family.one}, which is what {signal} runs on."
            if fits
            else f"{cable.code} is {cable.family.one}; {signal} needs "
            f"{' or '.join(family.one for family in families)}."
        ),
        value=str(cable.family),
        limit=" or ".join(families),
    )


def _conductors(cable: Cable, signal: str, needs: SignalNeeds) -> Iterator[Check]:
    fits = cable.conductors >= needs.legs
    wanted = "one conductor" if needs.legs == 1 else f"{needs.legs} conductors"
    if needs.balanced:
        wanted += f" {'wired as balanced pairs' if needs.legs > 2 else 'that are alike'}"
    besides = " besides the screen" if needs.screen else ""
    phantom = " The supply for the microphone needs both." if needs.phantom_power else ""
    yield _logic(
        name="conductors",
        fits=fits,
        sentence=(
            f"{signal[:1].upper()}{signal[1:]} needs {wanted}{besides}; {cable.code} has "
            f"{cable.conductors}.{'' if fits else phantom}"
        ),
        value=str(cable.conductors),
        limit=str(needs.legs),
    )
    if needs.screen:
        yield _logic(
            name="screen",
            fits=cable.screened,
            sentence=(
                f"{cable.code} is screened."
                if cable.screened
                else f"{cable.code} has no screen, and {signal} needs one."
            ),
            value="screened" if cable.screened else "not screened",
            limit="screened",
        )


def _impedances(run: Run, signal: str, nominal_ohm: float) -> Iterator[Check]:
    yield _impedance(
        f"impedance of {run.cable.code}", run.cable.sheet.impedance_ohm, signal, nominal_ohm
    )
    for connector in dict.fromkeys(run.connectors):
        if connector.impedance_ohm is not None:
            yield _impedance(
                f"impedance of {connector.code}", connector.impedance_ohm, signal, nominal_ohm
            )


_IMPEDANCE_VERDICTS = {
    ImpedanceMatch.SAME: (Outcome.GOOD, ""),
    ImpedanceMatch.NEAR: (Outcome.CAUTION, ": part of it comes back"),
    ImpedanceMatch.OTHER: (Outcome.BAD, ": part of the signal comes back at every joint"),
}


def _impedance(name: str, stated_ohm: float | None, signal: str, nominal_ohm: float) -> Check:
    wanted = impedance_class(nominal_ohm)
    nominal = show_in(nominal_ohm, "Ω", decimals=0)
    if stated_ohm is None:
        return Check(
            name=name,
            outcome=Outcome.NOT_COMPUTED,
            sentence=f"Not computed: the {name} is not stated, and {signal} needs {nominal}.",
            source=wanted.source,
            value=None,
            limit=nominal_ohm,
            margin=None,
            unit="Ω",
        )
    match = wanted.match(stated_ohm)
    outcome, comment = _IMPEDANCE_VERDICTS[match]
    stated = show_in(stated_ohm, "Ω", decimals=1)
    return Check(
        name=name,
        outcome=outcome,
        sentence=f"The {name} is {stated}, and {signal} is made for {nominal}: {match}{comment}.",
        source=wanted.source,
        value=stated_ohm,
        limit=nominal_ohm,
        margin=wanted.margin_ohm(stated_ohm),
        unit="Ω",
    )
