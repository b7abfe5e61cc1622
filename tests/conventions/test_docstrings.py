"""What is public in the core is explained, and every test says what it claims."""

import ast
import re
from collections.abc import Iterator

from tests.conventions.reading import CORE, ROOT, parsed, public_definitions


def unexplained(tree: ast.Module) -> list[str]:
    """Public functions, classes and methods without a docstring."""
    return [name for name, node in public_definitions(tree) if not ast.get_docstring(node)]


def test_functions(tree: ast.Module) -> Iterator[ast.FunctionDef]:
    """Every test function, in classes too."""
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef) and node.name.startswith("test_"):
            yield node


test_functions.__test__ = False  # type: ignore[attr-defined]


def claims_nothing(tree: ast.Module) -> list[str]:
    """Tests whose docstring is missing, or is anything but one sentence."""
    silent = []
    for node in test_functions(tree):
        told = " ".join((ast.get_docstring(node) or "").split())
        if not re.fullmatch(r".*[^.]\.", told) or re.search(r"(?<!e\.g)(?<!i\.e)\. [A-Z]", told):
            silent.append(node.name)
    return silent


def test_all_that_is_public_in_the_core_is_explained() -> None:
    """Every public function, class and method of the core has a docstring."""
    bare = [f"{path}: {name}" for path, tree in parsed(CORE) for name in unexplained(tree)]
    assert not bare, "\n".join(bare)


def test_every_test_says_in_one_sentence_what_it_claims() -> None:
    """Every test function has a docstring of one sentence."""
    silent = [
        f"{path}: {name}" for path, tree in parsed(ROOT / "tests") for name in claims_nothing(tree)
    ]
    assert not silent, "\n".join(silent)


def test_a_bare_function_is_found() -> None:
    """A public method without docstring is found, a private one and an inner one are not."""
    source = 'class Reel:\n    """One."""\n    def cut(self): ...\n    def _cut(self): ...\n'
    assert unexplained(ast.parse(source)) == ["Reel.cut"]


def test_a_test_that_claims_nothing_is_found() -> None:
    """A test without docstring, with half a sentence and with two sentences are all found."""
    source = (
        "def test_a(): pass\n"
        'def test_b():\n    """Adds"""\n'
        'def test_c():\n    """It adds. It subtracts."""\n'
        'def test_d():\n    """It adds 2.5 m."""\n'
    )
    assert claims_nothing(ast.parse(source)) == ["test_a", "test_b", "test_c"]
