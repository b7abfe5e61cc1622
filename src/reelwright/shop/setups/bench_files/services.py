"""Reading in a file of readings: all of it or nothing, and never the same twice."""

import datetime as dt
import hashlib
from collections import Counter
from dataclasses import dataclass

from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.setups.bench_files.columns import Vocabulary, read_readings
from reelwright.shop.setups.models import Revision
from reelwright.shop.setups.readings.selectors import FileRead, file_read
from reelwright.shop.setups.readings.services import readings_record
from reelwright.shop.transactions import write_transaction


@dataclass(frozen=True, kw_only=True)
class FileTaken:
    """What a file brought. ``before``: the file of the same bytes that was read in earlier."""

    name: str
    new: int
    known: int
    taken_back: int
    before: FileRead | None

    @property
    def sentence(self) -> str:
        """What happened, for people."""
        if self.before is not None:
            before = self.before
            named = "" if before.name == self.name else f" as {before.name}"
            return (
                f"{self.name} was read{named} on {before.read_on:%Y-%m-%d} by {before.read_by} "
                "already; nothing changed."
            )
        known = f"{_readings(self.known)} stood in the records already"
        if self.taken_back:
            known += f", {self.taken_back} of them taken back, which stays"
        if not self.new:
            return f"{self.name}: {known}; nothing changed."
        told = f"{self.name}: {_readings(self.new)} taken in."
        return f"{told} {known[:1].upper()}{known[1:]}." if self.known else told


def _readings(count: int) -> str:
    return "1 reading" if count == 1 else f"{count} readings"


@write_transaction()
def bench_file_read(*, by: Person, name: str, content: bytes, on: dt.date) -> FileTaken:
    """Read in a file of readings; ``on`` is today.

    The same bytes again change nothing, nor does a reading that stands in the records already,
    whatever the form of the file or the order of its rows. Raises ShopRuleBroken ``not_allowed``;
    InputFaults with everything that is wrong, and then nothing of the file was taken in.
    """
    require_may(by, Action.BOOK_WORK)
    digest = hashlib.sha256(content).hexdigest()
    before = file_read(digest)
    if before is not None:
        return FileTaken(name=name, new=0, known=0, taken_back=0, before=before)
    given, faults = read_readings(name=name, content=content, vocabulary=_vocabulary())
    done = readings_record(by=by, given=given, on=on, name=name, digest=digest, faults=faults)
    return FileTaken(
        name=name, new=done.new, known=done.known, taken_back=done.taken_back, before=None
    )


def _vocabulary() -> Vocabulary:
    revisions = Revision.objects.values_list("set_up__code", "letter", "pk")
    # Who has left recorded what they recorded.
    people = list(Person.objects.filter(erased_on__isnull=True))
    called = Counter(person.display_name.casefold() for person in people)
    return Vocabulary(
        revisions={(code.casefold(), letter.casefold()): pk for code, letter, pk in revisions},
        people={
            **{
                person.display_name.casefold(): person.pk
                for person in people
                if called[person.display_name.casefold()] == 1
            },
            **{person.user_name.casefold(): person.pk for person in people},
        },
    )
