"""Signing in and out."""

from django import forms
from django.contrib.auth import logout
from django.contrib.auth.forms import AuthenticationForm
from django.contrib.auth.views import LoginView
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.views.decorators.http import require_POST


class SignInForm(AuthenticationForm):
    """Name and password."""

    error_messages = {  # noqa: RUF012  # Django's own name and shape
        "invalid_login": "This name and this password do not belong together. Nothing was "
        "changed; try once more.",
        "inactive": "Who signed in by this name no longer works here.",
    }

    def __init__(self, *args: object, **kwargs: object) -> None:
        super().__init__(*args, **kwargs)  # type: ignore[arg-type]
        self.fields["username"].label = "Name to sign in"
        self.fields["username"].widget = forms.TextInput(
            attrs={"autocomplete": "username", "autocapitalize": "none", "autofocus": True}
        )
        self.fields["password"].widget.attrs.update({"autocomplete": "current-password"})


class SignIn(LoginView):
    """The page that everybody sees first."""

    template_name = "office/sign_in.html"
    authentication_form = SignInForm
    redirect_authenticated_user = True

    def get_default_redirect_url(self) -> str:
        """Return where a person goes who asked for no page."""
        return reverse("today")


@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """End the person's session."""
    logout(request)
    return redirect("sign_in")
