"""Photographs on the set-up sheets: attached and taken back here, and read here as values.

The file lies in the workshop's folder under its digest; it is written before its row, so that a
row never names a file that is not there. Nothing is ever removed from that folder.
"""

import datetime
import hashlib
import os
import tempfile
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.shop.people.models import Person
from reelwright.shop.people.permissions import Action, require_may
from reelwright.shop.reasons import kept_reason
from reelwright.shop.setups.models import Photograph, PhotographTakenBack, Revision
from reelwright.shop.setups.photo_files import read_photograph
from reelwright.shop.setups.selectors import revision_sheet
from reelwright.shop.setups.states import Shows
from reelwright.shop.transactions import write_transaction

CAPTION_AT_MOST = 200
REASON_AT_MOST = 300
"""Characters."""

MOST_ON_A_SHEET = 12
"""Photographs that stand on one revision: more than a sheet can be read with."""


@dataclass(frozen=True, kw_only=True)
class PhotographValue:
    """One photograph, as pages and paper show it; ``taken_back`` says who took it back and why.

    ``width_px``, ``height_px``: as it lies in the file; ``turned``: the way up, 1 to 8 (Exif).
    """

    number: int
    shows: Shows
    caption: str
    digest: str
    kind: str
    size_bytes: int
    width_px: int
    height_px: int
    turned: int
    by: str
    on: datetime.date
    taken_back: str

    @property
    def file_name(self) -> str:
        """The name of its file in the workshop's folder."""
        return f"{self.digest}.{'jpg' if self.kind == 'jpeg' else 'png'}"

    @property
    def upright_px(self) -> tuple[int, int]:
        """Width and height as it is seen, turned the right way up."""
        if self.turned >= 5:
            return self.height_px, self.width_px
        return self.width_px, self.height_px


def photograph_attach(
    *, by: Person, revision_id: int, content: bytes, shows: str, caption: str, on: datetime.date
) -> PhotographValue:
    """Put a photograph on the sheet of a revision, whatever its state.

    Only the picture is kept: place, time and device that a camera wrote into it are left out.

    Raises ShopRuleBroken ``not_allowed``, ``shows_unknown``, ``caption_missing``,
    ``caption_long``, ``photograph_there``, ``photographs_many``, and those of
    ``photo_files.read_photograph``; UnknownCode.
    """
    require_may(by, Action.DRAFT_SETUPS)
    if shows not in list(Shows):
        raise ShopRuleBroken(
            "shows_unknown", f"Accepted: {', '.join(Shows)}.", field="shows", value=shows
        )
    told = caption.strip()
    if not told:
        raise ShopRuleBroken("caption_missing", "Say what is to be seen on it.", field="caption")
    if len(told) > CAPTION_AT_MOST:
        raise ShopRuleBroken(
            "caption_long",
            f"{len(told)} characters; a caption has at most {CAPTION_AT_MOST}.",
            field="caption",
        )
    clean = read_photograph(content)
    digest = hashlib.sha256(clean.content).hexdigest()
    with write_transaction():
        # Two uploads at once: the second waits here and then sees the first.
        list(Revision.objects.select_for_update().filter(pk=revision_id))
        sheet = revision_sheet(revision_id)
        standing = Photograph.objects.filter(revision_id=revision_id, taken_back__isnull=True)
        if standing.filter(digest=digest).exists():
            raise ShopRuleBroken(
                "photograph_there", f"It is on {sheet.name} already.", field="file"
            )
        if standing.count() >= MOST_ON_A_SHEET:
            raise ShopRuleBroken(
                "photographs_many",
                f"{sheet.name} has {MOST_ON_A_SHEET} photographs: take one back first.",
                field="file",
            )
        row = Photograph(
            revision_id=revision_id,
            shows=Shows(shows).value,
            caption=told,
            digest=digest,
            kind=clean.kind,
            size_bytes=len(clean.content),
            width_px=clean.width_px,
            height_px=clean.height_px,
            turned=clean.turned,
            by=by,
            on=on,
        )
        _write_once(_folder() / _value(row).file_name, clean.content)
        row.save()
        return _value(row)


@write_transaction()
def photograph_take_back(*, by: Person, number: int, reason: str, on: datetime.date) -> None:
    """Take a photograph off its sheet by a second entry that says why; its file is kept.

    Raises ShopRuleBroken ``not_allowed``, ``reason_missing``, ``reason_long``, ``taken_back``;
    UnknownCode.
    """
    require_may(by, Action.CORRECT)
    told = kept_reason(reason, ask="Say why it is taken back.", at_most=REASON_AT_MOST)
    found = Photograph.objects.filter(pk=number).first()
    if found is None:
        raise UnknownCode(kind="photograph", code=str(number))
    if PhotographTakenBack.objects.filter(photograph=found).exists():
        raise ShopRuleBroken("taken_back", "This photograph was taken back already.")
    PhotographTakenBack.objects.create(photograph=found, reason=told, by=by, on=on)


def photographs(revision_id: int) -> tuple[PhotographValue, ...]:
    """Return all that were ever on a revision, oldest first, those taken back included."""
    rows = Photograph.objects.filter(revision_id=revision_id).select_related("by", "taken_back__by")
    return tuple(_value(row) for row in rows.order_by("pk"))


def standing_photographs(revision_id: int) -> tuple[PhotographValue, ...]:
    """Return those that stand on a revision, oldest first."""
    return tuple(each for each in photographs(revision_id) if not each.taken_back)


def photograph_file(name: str) -> tuple[str, bytes]:
    """Return kind and bytes of a photograph that stands on some sheet.

    Raises UnknownCode where none of that name stands, ShopRuleBroken ``photograph_lost`` where its
    file is not in the workshop's folder, or is another than was put there.
    """
    digest, _, ending = name.partition(".")
    row = Photograph.objects.filter(digest=digest, taken_back__isnull=True).first()
    if row is None or _value(row).file_name != name:
        raise UnknownCode(kind="photograph", code=f"{digest[:12]}.{ending}")
    return row.kind, photograph_bytes(_value(row))


def photograph_bytes(value: PhotographValue) -> bytes:
    """Return the bytes of a photograph. Raises ShopRuleBroken ``photograph_lost``."""
    path = _folder() / value.file_name
    content = path.read_bytes() if path.is_file() else b""
    if hashlib.sha256(content).hexdigest() != value.digest:
        raise ShopRuleBroken(
            "photograph_lost",
            f"The file of “{value.caption}” is not in the folder of the workshop as it was put "
            f"there: {path.name}. Bring it back from a backup, or take the photograph back.",
            file=path.name,
        )
    return content


def _folder() -> Path:
    return Path(settings.PHOTOGRAPHS_FOLDER)


def _write_once(path: Path, content: bytes) -> None:
    if path.is_file() and path.read_bytes() == content:
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    # Beside its place and moved there: nobody ever reads half a photograph.
    handle, half = tempfile.mkstemp(dir=path.parent, suffix=".part")
    with os.fdopen(handle, "wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
    Path(half).chmod(0o640)
    os.replace(half, path)


def _value(row: Photograph) -> PhotographValue:
    back = getattr(row, "taken_back", None) if row.pk else None
    return PhotographValue(
        number=row.pk or 0,
        shows=Shows(row.shows),
        caption=row.caption,
        digest=row.digest,
        kind=row.kind,
        size_bytes=row.size_bytes,
        width_px=row.width_px,
        height_px=row.height_px,
        turned=row.turned,
        by=row.by.display_name,
        on=row.on,
        taken_back=(
            ""
            if back is None
            else f"Taken back {back.on:%Y-%m-%d} by {back.by.display_name}: {back.reason}"
        ),
    )
