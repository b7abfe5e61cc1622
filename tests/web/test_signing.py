"""Signing in and out, and what happens to whoever guesses."""

import pytest
from django.test import Client

from tests.day_world import DayWorld

PASSWORD = "a long enough secret"


@pytest.fixture
def ada(day_world: DayWorld) -> DayWorld:
    """Ada with a password."""
    day_world.ada.set_password(PASSWORD)
    day_world.ada.save()
    return day_world


def sign_in(client: Client, password: str, **more: str) -> int:
    """Send the form of the sign-in page; return the status."""
    form = {"username": "ada", "password": password, **more}
    return client.post("/sign-in", form).status_code


def test_name_and_password_open_the_page_that_was_asked_for(client: Client, ada: DayWorld) -> None:
    """After signing in the person is where they wanted to go, and their name is in the strip."""
    answer = client.post(
        "/sign-in?next=/reels",
        {"username": "ada", "password": PASSWORD, "next": "/reels"},
        follow=True,
    )
    assert answer.redirect_chain == [("/reels", 302)]
    assert "Ada" in answer.text


def test_another_site_is_never_gone_on_to(client: Client, ada: DayWorld) -> None:
    """A link that wants to lead elsewhere after signing in leads to today."""
    form = {"username": "ada", "password": PASSWORD, "next": "https://elsewhere.invalid/"}
    assert client.post("/sign-in", form).headers["Location"] == "/"


def test_a_wrong_password_is_told_without_telling_which_was_wrong(
    client: Client, ada: DayWorld
) -> None:
    """The words are the same for a wrong password and for a name that nobody has."""
    told = "do not belong together"
    assert told in client.post("/sign-in", {"username": "ada", "password": "no"}).text
    assert told in client.post("/sign-in", {"username": "nobody", "password": "no"}).text


def test_after_eight_failures_a_name_waits_and_others_do_not(client: Client, ada: DayWorld) -> None:
    """The ninth try is refused in words even with the right password; another name still works."""
    ada.ben.set_password(PASSWORD)
    ada.ben.save()
    for _ in range(8):
        sign_in(client, "wrong")
    answer = client.post("/sign-in", {"username": "ada", "password": PASSWORD})
    assert answer.status_code == 429
    assert "Wait a little" in answer.text
    assert client.post("/sign-in", {"username": "ben", "password": PASSWORD}).status_code == 302


def test_signing_out_takes_a_form_and_ends_the_session(client: Client, ada: DayWorld) -> None:
    """A mere link cannot sign anybody out; the button does."""
    assert sign_in(client, PASSWORD) == 302
    assert client.get("/sign-out").status_code == 405
    assert client.get("/reels").status_code == 200
    client.post("/sign-out")
    assert client.get("/reels").status_code == 302
