"""Where the sources are, and how a rule reads them."""

import ast
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "reelwright"
CORE = PACKAGE / "core"

Definition = ast.FunctionDef | ast.AsyncFunctionDef | ast.ClassDef


def python_files(folder: Path) -> list[Path]:
    """Every Python file below a folder; none where the folder is not there yet."""
    return sorted(folder.rglob("*.py"))


def parsed(folder: Path) -> Iterator[tuple[str, ast.Module]]:
    """Each file's path as seen from the project, and its syntax tree."""
    for path in python_files(folder):
        yield str(path.relative_to(ROOT)), ast.parse(path.read_text(encoding="utf-8"))


def public_definitions(tree: ast.Module) -> Iterator[tuple[str, Definition]]:
    """Public functions, classes and methods, with their dotted names."""

    def walk(body: list[ast.stmt], prefix: str) -> Iterator[tuple[str, Definition]]:
        for node in body:
            if not isinstance(node, Definition) or node.name.startswith("_"):
                continue
            yield prefix + node.name, node
            if isinstance(node, ast.ClassDef):
                yield from walk(node.body, f"{prefix}{node.name}.")

    return walk(tree.body, "")


def dotted(node: ast.expr) -> str:
    """``a.b.c`` for such an expression; empty for anything else."""
    if isinstance(node, ast.Name):
        return node.id
    if isinstance(node, ast.Attribute):
        before = dotted(node.value)
        return f"{before}.{node.attr}" if before else ""
    return ""
