"""Who may see a page: signed in, and of a role that may do what the page is for."""

import functools
from collections.abc import Callable
from typing import Any

from django.contrib.auth.views import redirect_to_login
from django.http import HttpRequest, HttpResponse, HttpResponseBase
from django.urls import reverse

from reelwright.shop.people.permissions import Action, require_may

View = Callable[..., HttpResponseBase]


def page(action: Action = Action.LOOK) -> Callable[[View], View]:
    """Let in who may do ``action``; send others to sign in, or refuse in words (``errors``)."""

    def guarded(view: View) -> View:
        @functools.wraps(view)
        def answer(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponseBase:
            if not request.user.is_authenticated:
                return _to_sign_in(request)
            require_may(request.user, action)
            return view(request, *args, **kwargs)

        return answer

    return guarded


def person_of(request: HttpRequest) -> Any:
    """Return the person who is signed in, as services take it; ``page`` has let them in.

    ``Any``: the pages never name a table's class.
    """
    return request.user


def is_part(request: HttpRequest) -> bool:
    """Return whether the page's own script asks for a part of it."""
    return bool(getattr(request, "htmx", False))


def _to_sign_in(request: HttpRequest) -> HttpResponseBase:
    sign_in = reverse("sign_in")
    if is_part(request):
        # A part of a page cannot become the sign-in page: the whole page goes there.
        return HttpResponse(status=204, headers={"HX-Redirect": sign_in})
    return redirect_to_login(request.get_full_path(), login_url=sign_in)
