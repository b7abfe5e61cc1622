"""Files of trials into a search: whole or not at all, and the same again changes nothing."""

import pytest

from reelwright.core.errors import InputFaults
from reelwright.shop.trials import models, selectors, services
from reelwright.shop.trials.files import FileRead, trials_file_read
from tests.shop.refusals import refused
from tests.shop.trials.conftest import MADE, trial
from tests.small_world import TODAY, SmallWorld

GOOD = """number,energy [J],pressure,pull,pull,pull,failure,note
1,300,2.8,266,271,259,,
1,,,268,262,,,two more
2,300,2.2,242,251,247,,
3,340,2.8,235,244,240,,
4,400,3.6,,,,cut through,
"""


def read(world: SmallWorld, code: str, content: str, name: str = "t.csv") -> FileRead:
    """Send a file."""
    return trials_file_read(
        by=world.ben, search_code=code, name=name, content=content.encode(), on=TODAY
    )


def counts() -> tuple[int, int, int]:
    """Rows of trials, readings and files."""
    return (
        models.TrialMade.objects.count(),
        models.TrialReading.objects.count(),
        models.TrialFile.objects.count(),
    )


def test_a_file_becomes_trials(world: SmallWorld, begun: str) -> None:
    """Repeats of columns and rows, a failure and a note, each trial with the file it came from."""
    assert read(world, begun, GOOD) == FileRead(new=4, known=0)
    trials = selectors.trials_of(begun)
    assert trials[0].trial.values_of("pull") == (266, 271, 259, 268, 262)
    assert (trials[0].note, trials[0].file) == ("two more", "t.csv")
    assert trials[3].trial.failure == "cut through"


def test_the_same_file_again_changes_nothing(world: SmallWorld, begun: str) -> None:
    """Nor do other dividers or another name; a longer file adds what is new."""
    read(world, begun, GOOD)
    before = counts()
    assert read(world, begun, GOOD) == FileRead(new=0, known=4)
    assert read(world, begun, GOOD.replace(",", ";"), "other.csv") == FileRead(new=0, known=4)
    assert counts() == before
    longer = GOOD + "5,260,2.8,239,232,243,,\n"
    assert read(world, begun, longer) == FileRead(new=1, known=4)


def test_what_was_typed_at_the_bench_is_known_to_a_file(world: SmallWorld, begun: str) -> None:
    """A file that holds typed trials too adds only the others."""
    values, pulls = MADE[0]
    services.trial_record(by=world.ben, search_code=begun, trial=trial(values, pulls), on=TODAY)
    assert read(world, begun, GOOD) == FileRead(new=3, known=1)


def test_other_content_under_a_known_number_is_refused(world: SmallWorld, begun: str) -> None:
    """It names row, number and what differs, and the rest of the file is not read either."""
    read(world, begun, GOOD)
    before = counts()
    changed = GOOD.replace("2,300,2.2,242", "2,300,2.2,243") + "5,260,2.8,239,232,243,,\n"
    with pytest.raises(InputFaults) as caught:
        read(world, begun, changed)
    (fault,) = caught.value.faults
    assert (fault.row, fault.field, fault.value) == (4, "number", "2")
    assert "with other readings" in fault.problem
    assert counts() == before


def test_a_file_with_a_fault_is_not_half_read(world: SmallWorld, begun: str) -> None:
    """One bad cell in the last row, and nothing of the file is kept."""
    with pytest.raises(InputFaults, match=r"row 6, failure"):
        read(world, begun, GOOD.replace("4,400,3.6,,,,cut", "4,400,3.6,250,,,cut"))
    assert counts() == (0, 0, 0)


def test_a_file_that_contradicts_the_records_is_refused(world: SmallWorld, begun: str) -> None:
    """Set the same as a trial typed before and far from it: told with the file's own row."""
    for values, pulls in MADE[:2]:
        services.trial_record(by=world.ben, search_code=begun, trial=trial(values, pulls), on=TODAY)
    with pytest.raises(InputFaults) as caught:
        read(world, begun, "number,energy,pressure,pull,pull\n7,300,2.8,126,131\n")
    (fault,) = caught.value.faults
    assert (fault.file, fault.row, fault.field) == ("t.csv", 2, "pull")
    assert "set the same as an earlier trial" in fault.problem


def test_a_trial_taken_back_stays_taken_back(world: SmallWorld, begun: str) -> None:
    """The file that brought it changes nothing when it is sent again."""
    read(world, begun, GOOD)
    services.trial_take_back(by=world.ben, search_code=begun, number=4, reason="Slip.", on=TODAY)
    assert read(world, begun, GOOD) == FileRead(new=0, known=4)
    assert [one.number for one in selectors.search_problem(begun).trials] == [1, 2, 3]


def test_who_may_send_a_file(world: SmallWorld, begun: str) -> None:
    """A viewer may not, and a closed search takes none."""
    with refused("not_allowed"):
        trials_file_read(
            by=world.vic, search_code=begun, name="t.csv", content=GOOD.encode(), on=TODAY
        )
    services.search_close(by=world.ada, search_code=begun, reason="Given up.", on=TODAY)
    with refused("search_closed"):
        read(world, begun, GOOD)
