"""The core starts quickly anywhere: importing it loads the standard library and numpy only."""

import ast
import subprocess
import sys
from pathlib import Path

import pytest

from tests.conventions.reading import CORE, parsed, python_files

LATE_ROOMS = ("_kernels.py", "_solver.py")
OURS = {"reelwright", "numpy"}

# Run in an interpreter of its own; what the environment loads by itself before does not count.
PROBE = """
import sys
sys.path[:0] = sys.argv[1].split(",")
before = {name.partition(".")[0] for name in sys.modules}
for name in sys.argv[2].split(","):
    __import__(name)
after = {name.partition(".")[0] for name in sys.modules}
print(*sorted(after - before - set(sys.stdlib_module_names)), sep=",")
"""


def loaded_by(*modules: str, paths: tuple[Path, ...] = ()) -> set[str]:
    """Top-level packages outside the standard library that importing these modules loads."""
    asked = [",".join(map(str, paths)), ",".join(modules)]
    done = subprocess.run(
        [sys.executable, "-c", PROBE, *asked], capture_output=True, text=True, check=True
    )
    return set(filter(None, done.stdout.strip().split(",")))


def core_modules() -> list[str]:
    """Every module of the core by its dotted name."""
    source = CORE.parents[1]
    names = [path.relative_to(source).with_suffix("").parts for path in python_files(CORE)]
    return [".".join(parts).removesuffix(".__init__") for parts in names]


def heavy_imports(tree: ast.Module) -> set[str]:
    """Packages imported anywhere, also inside functions, that are neither standard nor ours."""
    names = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            names |= {alias.name.partition(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            names.add((node.module or "").partition(".")[0])
    return names - set(sys.stdlib_module_names) - OURS


def test_importing_the_core_loads_the_standard_library_and_numpy_only() -> None:
    """A fresh interpreter that imports every module of the core loads nothing else."""
    modules = core_modules()
    assert "reelwright.core.errors" in modules
    assert loaded_by(*modules) <= OURS


def test_heavy_libraries_are_used_in_the_rooms_named_for_it_only() -> None:
    """Only modules named _kernels or _solver use scipy and its like, even inside a function."""
    heavy = {path: heavy_imports(tree) for path, tree in parsed(CORE)}
    assert not {
        path: names for path, names in heavy.items() if names and not path.endswith(LATE_ROOMS)
    }


def test_a_heavy_module_is_found(tmp_path: Path) -> None:
    """A module that imports another library is told by that library's name."""
    (tmp_path / "heavy_room.py").write_text("import click\n")
    assert "click" in loaded_by("heavy_room", paths=(tmp_path,))


@pytest.mark.parametrize("source", ["import scipy.stats", "def late():\n    from scipy import io"])
def test_a_heavy_import_is_found_wherever_it_stands(source: str) -> None:
    """An import of scipy is found at the top of a module and inside a function."""
    assert heavy_imports(ast.parse(source)) == {"scipy"}
