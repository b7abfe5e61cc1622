"""Records are read by selectors, written by services, and point one way only."""

import ast
import io
import tomllib
from collections.abc import Iterable

import pytest

from tests.conventions.reading import PACKAGE, ROOT, parsed

WRITES = {"save", "delete", "bulk_create", "bulk_update"}


def record_uses(tree: ast.Module) -> list[str]:
    """Managers and writes used directly, each with its line."""
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and node.attr == "objects":
            found.append(f"line {node.lineno}: .objects")
        elif isinstance(node, ast.Call) and getattr(node.func, "attr", "") in WRITES:
            found.append(f"line {node.lineno}: {ast.unparse(node.func)}(")
    return found


def shop_order() -> dict[str, int]:
    """Each room of the shop and its height, from the import contract; equal heights are apart."""
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"]
    (shop,) = (it for it in contracts["contracts"] if it["name"] == "the shop")
    heights = {}
    for height, layer in enumerate(reversed(shop["layers"])):
        for room in layer.split("|"):
            heights[room.strip().strip("()")] = height
    return heights


def upward_keys(keys: Iterable[tuple[str, str]], heights: dict[str, int]) -> list[str]:
    """Keys (from room, to room) that point to a room above, or to another of the same height."""
    return [
        f"{room} -> {other}"
        for room, other in keys
        if room != other and heights[other] >= heights[room]
    ]


def keys_of_the_shop() -> list[tuple[str, str]]:
    """Every relation between two models of the shop, as rooms: also those named by string."""
    from django.apps import apps

    def room(model: type) -> str | None:
        parts = model.__module__.split(".")
        return parts[2] if parts[:2] == ["reelwright", "shop"] else None

    pairs = []
    for model in apps.get_models():
        for field in model._meta.get_fields():
            # Only the side that holds the key: Django mirrors each on the other model.
            if field.concrete and field.related_model and isinstance(field.related_model, type):
                ends = room(model), room(field.related_model)
                if ends[0] and ends[1]:
                    pairs.append((ends[0], ends[1]))
    return pairs


def test_pages_touch_no_record() -> None:
    """Pages use neither managers nor writes: they ask selectors and services."""
    uses = [f"{path}: {use}" for path, tree in parsed(PACKAGE / "web") for use in record_uses(tree)]
    assert not uses, "\n".join(uses)


@pytest.mark.parametrize("source", ["Reel.objects.all()", "reel.save()", "reel.delete()"])
def test_a_page_that_touches_a_record_is_found(source: str) -> None:
    """A manager and each kind of write are found."""
    assert record_uses(ast.parse(source))


def test_keys_between_rooms_of_the_shop_point_downwards() -> None:
    """No foreign key, named by string or not, points to a room that stands above its own."""
    heights = shop_order()
    assert heights["day"] > heights["people"]
    assert not upward_keys(keys_of_the_shop(), heights)


def test_a_key_that_points_upwards_is_found() -> None:
    """A key from reels to orders and one between two rooms of one height are both found."""
    keys = [("reels", "orders"), ("reels", "bins"), ("orders", "reels"), ("reels", "reels")]
    assert upward_keys(keys, shop_order()) == ["reels -> orders", "reels -> bins"]


@pytest.mark.django_db
def test_every_migration_is_there() -> None:
    """The models ask for no migration that is not written."""
    from django.core.management import call_command

    told = io.StringIO()
    try:
        call_command("makemigrations", "--check", "--dry-run", stdout=told, stderr=told)
    except SystemExit:
        pytest.fail(told.getvalue())
