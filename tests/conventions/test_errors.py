"""The error tree is drawn at the top of its file, and the drawing is true."""

import ast
import re
from pathlib import Path

from tests.conventions.reading import CORE, PACKAGE, dotted, parsed

DRAWN = re.compile(r"[├└]── (\w+)(?:\s+\((\w+)\))?")


def drawn(docstring: str) -> dict[str, str | None]:
    """The errors of the drawing, each with the builtin that it also is."""
    return {name: builtin or None for name, builtin in DRAWN.findall(docstring)}


def defined(tree: ast.Module, root: str) -> dict[str, set[str]]:
    """The error classes of a module below the root, each with the names of its bases."""
    found: dict[str, set[str]] = {}
    for node in tree.body:
        if isinstance(node, ast.ClassDef):
            bases = {dotted(base) for base in node.bases}
            if bases & {root, *found}:
                found[node.name] = bases
    return found


def raised(trees: list[ast.Module]) -> set[str]:
    """Names that are called somewhere: an error is made where it is raised, or just before."""
    return {
        dotted(node.func).split(".")[-1]
        for tree in trees
        for node in ast.walk(tree)
        if isinstance(node, ast.Call)
    }


def errors_tree() -> ast.Module:
    """The file of the error tree."""
    return ast.parse(Path(CORE / "errors.py").read_text(encoding="utf-8"))


def test_the_drawing_shows_the_errors_that_exist() -> None:
    """The error tree in the docstring and the classes below it are the same, builtins too."""
    tree = errors_tree()
    shown = drawn(ast.get_docstring(tree) or "")
    classes = defined(tree, "ReelwrightError")
    assert shown.keys() == classes.keys()
    assert all(builtin is None or builtin in classes[name] for name, builtin in shown.items())


def test_every_error_is_raised_somewhere() -> None:
    """No error class is kept that nothing ever raises."""
    trees = [tree for path, tree in parsed(PACKAGE) if not path.endswith("core/errors.py")]
    assert not defined(errors_tree(), "ReelwrightError").keys() - raised(trees)


def test_a_drawing_that_lies_is_found() -> None:
    """An error that is drawn but not defined, and one defined but not drawn, both show."""
    source = '"""Tree.\n\n    Root\n    └── Gone  (ValueError)\n"""\nclass New(Root): ...\n'
    tree = ast.parse(source)
    assert drawn(ast.get_docstring(tree) or "") == {"Gone": "ValueError"}
    assert defined(tree, "Root") == {"New": {"Root"}}


def test_an_error_that_nothing_raises_is_found() -> None:
    """Naming an error in an except clause is not raising it."""
    tree = ast.parse("try:\n    go()\nexcept BadValue:\n    raise UnknownCode('x')\n")
    assert raised([tree]) == {"go", "UnknownCode"}
