"""A pack is written whole or not at all, the same each time, and over nothing else."""

import hashlib
import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from reelwright.core.errors import UnknownCode
from reelwright.shop.day.pack import write
from reelwright.shop.day.pack.gather import PackData
from reelwright.shop.day.pack.write import FILES, MANIFEST, pack_file, pack_files, pack_write
from tests.shop.day.pack.conftest import Pack
from tests.shop.refusals import refused


@pytest.fixture
def ready(pack: Pack, monkeypatch: pytest.MonkeyPatch) -> Pack:
    """The pack with its files at hand: how they are put down is tried, not how they are made."""
    monkeypatch.setattr(write, "pack_files", lambda _data: iter(pack.files.items()))
    return pack


def contents(folder: Path) -> dict[str, bytes]:
    """Every file of a folder."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_the_same_records_give_the_same_bytes(pack: Pack) -> None:
    """Every file made a second time from the records is the same to the last byte."""
    assert dict(pack_files(pack.data)) == pack.files
    assert set(pack.files) == set(FILES)


def test_one_file_is_that_of_the_whole_pack(pack: Pack) -> None:
    """A file asked for alone is the one in the pack; one that there is not is named."""
    assert pack_file(pack.data, "bench-plan.csv") == pack.files["bench-plan.csv"]
    with pytest.raises(UnknownCode, match=r"invoice\.pdf"):
        pack_file(pack.data, "invoice.pdf")


def test_the_manifest_has_the_digest_of_every_file(ready: Pack, tmp_path: Path) -> None:
    """Digests of what lies on the disk, the run, its day and its order file."""
    written = pack_write(run_id=ready.run_id, folder=tmp_path / "pack")
    assert {path.name for path in written} == set(ready.files) | {MANIFEST}
    manifest = json.loads((tmp_path / "pack" / MANIFEST).read_bytes())
    assert manifest["working_day"] == "2026-11-24"
    assert manifest["run"] == 1
    assert manifest["orders"] == "orders-2026-11-24.csv"
    assert manifest["files"] == {
        name: hashlib.sha256((tmp_path / "pack" / name).read_bytes()).hexdigest()
        for name in ready.files
    }
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]


def test_a_broken_run_leaves_the_old_pack_or_none(
    ready: Pack, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Where the third paper fails there is no pack, or the old one whole; the next run is whole."""

    def failing(_data: PackData) -> Iterator[tuple[str, bytes]]:
        yield from list(ready.files.items())[:2]
        raise OSError("no space left")

    folder = tmp_path / "pack"
    with monkeypatch.context() as broken:
        broken.setattr(write, "pack_files", failing)
        with pytest.raises(OSError, match="no space"):
            pack_write(run_id=ready.run_id, folder=folder)
        assert not folder.exists()
    pack_write(run_id=ready.run_id, folder=folder)
    whole = contents(folder)
    with monkeypatch.context() as broken:
        broken.setattr(write, "pack_files", failing)
        with pytest.raises(OSError, match="no space"):
            pack_write(run_id=ready.run_id, folder=folder)
    assert contents(folder) == whole
    pack_write(run_id=ready.run_id, folder=folder)
    assert contents(folder) == whole
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]


def test_what_a_killed_run_left_behind_is_cleared(ready: Pack, tmp_path: Path) -> None:
    """Half a pack beside the place, and the old one moved away: the next run tidies both."""
    folder = tmp_path / "pack"
    for name in (".pack.being-written", ".pack.replaced"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "summary.pdf").write_bytes(b"half")
    pack_write(run_id=ready.run_id, folder=folder)
    assert [path.name for path in tmp_path.iterdir()] == ["pack"]
    assert contents(folder)["summary.pdf"] == ready.files["summary.pdf"]


def test_a_file_no_longer_made_does_not_stay(ready: Pack, tmp_path: Path) -> None:
    """A pack replaces the earlier one whole: nothing of it remains."""
    folder = tmp_path / "pack"
    pack_write(run_id=ready.run_id, folder=folder)
    (folder / "old.pdf").write_bytes(b"of an earlier run")
    pack_write(run_id=ready.run_id, folder=folder)
    assert set(contents(folder)) == set(ready.files) | {MANIFEST}


def test_a_foreign_folder_is_left_alone(ready: Pack, tmp_path: Path) -> None:
    """A folder with anything else in it, and a file, are refused and stay as they are."""
    foreign = tmp_path / "photos"
    foreign.mkdir()
    (foreign / "boat.jpg").write_bytes(b"boat")
    with refused("not_a_pack"):
        pack_write(run_id=ready.run_id, folder=foreign)
    with refused("not_a_pack"):
        pack_write(run_id=ready.run_id, folder=foreign / "boat.jpg")
    assert contents(foreign) == {"boat.jpg": b"boat"}
    assert [path.name for path in tmp_path.iterdir()] == ["photos"]


def test_an_empty_folder_is_taken(ready: Pack, tmp_path: Path) -> None:
    """A folder made beforehand with nothing in it becomes the pack."""
    folder = tmp_path / "today"
    folder.mkdir()
    pack_write(run_id=ready.run_id, folder=folder)
    assert (folder / MANIFEST).is_file()


def test_an_unknown_run_writes_nothing(ready: Pack, tmp_path: Path) -> None:
    """A run that is not recorded is named, and no folder appears."""
    with pytest.raises(UnknownCode):
        pack_write(run_id=ready.run_id + 999, folder=tmp_path / "pack")
    assert list(tmp_path.iterdir()) == []
