"""Writing a pack: every paper and table made, then put in place as one folder."""

import hashlib
import json
import os
import shutil
from collections.abc import Callable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from functools import partial
from pathlib import Path
from typing import TypeVar

from reelwright.core.errors import ShopRuleBroken, UnknownCode
from reelwright.documents.answers import answers_text, render_answers
from reelwright.documents.bench_plan import render_bench_plan
from reelwright.documents.cut_list import render_cut_list
from reelwright.documents.expected_values import render_expected_values
from reelwright.documents.labels import render_labels
from reelwright.documents.shortages import render_shortages
from reelwright.documents.summary import render_summary
from reelwright.documents.traveller import render_traveller
from reelwright.shop.day.pack.answers import answers_paper
from reelwright.shop.day.pack.bench_plan import bench_paper
from reelwright.shop.day.pack.cut_list import cut_list_paper
from reelwright.shop.day.pack.expected import expected_paper
from reelwright.shop.day.pack.gather import PackData, gather
from reelwright.shop.day.pack.labels import labels_paper
from reelwright.shop.day.pack.shortages import shortages_paper
from reelwright.shop.day.pack.summary import summary_paper
from reelwright.shop.day.pack.tables import bench_table, cut_table
from reelwright.shop.day.pack.travellers import travellers_paper
from reelwright.shop.day.progress import Progress, silent

MANIFEST = "pack.json"

_P = TypeVar("_P")


# What sets one file once its content is gathered: it reads no record, so that it may run beside
# the gathering of the next.
Press = Callable[[], bytes]


def _printed(
    paper: Callable[[PackData], _P | None], render: Callable[[_P], bytes]
) -> Callable[[PackData], Press | None]:
    def made(data: PackData) -> Press | None:
        content = paper(data)
        return None if content is None else partial(render, content)

    return made


def _table(
    plan: Callable[[PackData], object], table: Callable[[PackData], bytes]
) -> Callable[[PackData], Press | None]:
    def made(data: PackData) -> Press | None:
        if plan(data) is None:
            return None
        content = table(data)
        return lambda: content

    return made


# In the order of the day: what to read first stands first.
FILES: dict[str, Callable[[PackData], Press | None]] = {
    "summary.pdf": _printed(
        lambda data: summary_paper(data, shortages_paper(data)), render_summary
    ),
    "answers.pdf": _printed(answers_paper, render_answers),
    "answers.txt": _printed(answers_paper, lambda paper: answers_text(paper).encode()),
    "cut-list.pdf": _printed(cut_list_paper, render_cut_list),
    "cut-list.csv": _table(lambda data: data.cut_plan, cut_table),
    "travellers.pdf": _printed(travellers_paper, render_traveller),
    "labels.pdf": _printed(labels_paper, render_labels),
    "bench-plan.pdf": _printed(bench_paper, render_bench_plan),
    "bench-plan.csv": _table(lambda data: data.bench_plan, bench_table),
    "expected-values.pdf": _printed(expected_paper, render_expected_values),
    "shortages.pdf": _printed(shortages_paper, render_shortages),
}


def pack_file(data: PackData, name: str) -> bytes:
    """Return one file of the pack. Raises UnknownCode where the pack has none of that name."""
    make = FILES.get(name)
    press = None if make is None else make(data)
    if press is None:
        raise UnknownCode(kind="file of the pack", code=name, near=FILES)
    return press()


def pack_files(data: PackData) -> Iterator[tuple[str, bytes]]:
    """Yield each file of the pack: its name and bytes. A paper with nothing on it is left out.

    Records are read here, one paper after the other; two presses set what was read meanwhile, since
    setting leaves the interpreter free.
    """
    with ThreadPoolExecutor(max_workers=2) as presses:
        set_now: list[tuple[str, Future[bytes]]] = []
        for name, make in FILES.items():
            press = make(data)
            if press is not None:
                set_now.append((name, presses.submit(press)))
        for name, done in set_now:
            yield name, done.result()


# What a whole pack holds, so that progress can be told; a pack may hold fewer.
_USUAL_FILES = 12


def pack_write(*, run_id: int, folder: Path, progress: Progress = silent) -> list[Path]:
    """Write the pack of a run to ``folder`` and return its files.

    The folder appears whole or not at all: it is made beside its place and moved there. One that
    holds an earlier pack is replaced.

    Raises:
        ShopRuleBroken: as ``require_place``; nothing is written then.
        UnknownCode: no such run.
    """
    folder = folder.absolute()
    require_place(folder)
    data = gather(run_id)
    aside = folder.with_name(f".{folder.name}.being-written")
    if aside.exists():
        # Left behind by a run that was killed.
        shutil.rmtree(aside)
    aside.mkdir(parents=True)
    digests: dict[str, str] = {}
    for count, (name, content) in enumerate(pack_files(data), start=1):
        progress(f"writing {name}", min(0.99, count / _USUAL_FILES))
        _write(aside / name, content)
        digests[name] = hashlib.sha256(content).hexdigest()
    manifest = {
        "workshop": data.workshop_name,
        "working_day": data.on.isoformat(),
        "run": data.run_number,
        "orders": data.file_name,
        "files": digests,
    }
    _write(aside / MANIFEST, json.dumps(manifest, indent=2).encode() + b"\n")
    _put_in_place(aside, folder)
    progress("the pack is written", 1.0)
    return [folder / name for name in (*digests, MANIFEST)]


def require_place(folder: Path) -> None:
    """Raise ShopRuleBroken unless the folder is free, empty or an earlier pack.

    ``not_a_pack`` where it holds anything else, ``no_place`` where it cannot be made.
    """
    if folder.exists() and not folder.is_dir():
        raise ShopRuleBroken("not_a_pack", f"{folder} is a file; name a folder for the pack.")
    above = next(each for each in folder.parents if each.exists())
    if not above.is_dir() or not os.access(above, os.W_OK):
        raise ShopRuleBroken(
            "no_place", f"{folder} cannot be made: {above} is no folder that may be written to."
        )
    if folder.is_dir() and any(folder.iterdir()) and not (folder / MANIFEST).is_file():
        raise ShopRuleBroken(
            "not_a_pack",
            f"{folder} holds other files; name a new folder, or one that holds an earlier pack.",
        )


def _write(path: Path, content: bytes) -> None:
    with path.open("wb") as file:
        file.write(content)
        file.flush()
        os.fsync(file.fileno())


def _put_in_place(aside: Path, folder: Path) -> None:
    old = folder.with_name(f".{folder.name}.replaced")
    if old.exists():
        # Left behind by a run that was killed.
        shutil.rmtree(old)
    if folder.exists():
        folder.rename(old)
    aside.rename(folder)
    if old.exists():
        shutil.rmtree(old)
