"""Signing in, choosing and changing one's own password: Django's own views in our words."""

from typing import Any

from axes.handlers.proxy import AxesProxyHandler
from django.contrib import messages
from django.contrib.auth import views as auth
from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.forms import AuthenticationForm, PasswordChangeForm
from django.contrib.messages.views import SuccessMessageMixin
from django.forms import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse_lazy
from django.utils.translation import gettext_lazy as _

from .asker import asker
from .turns import BusyError, Turns

# To read a password takes 100 MB and a third of a second, whoever sends it.
READING = Turns(2, each=1)


class SignInForm(AuthenticationForm):
    def clean_username(self) -> str:
        """No account has a longer name, and each that is tried is kept for a while."""
        name = self.cleaned_data["username"]
        if len(name) > self.username_field.max_length:
            raise self.get_invalid_login_error()
        return name


class SignIn(auth.LoginView):
    form_class = SignInForm
    redirect_authenticated_user = True

    def get_redirect_url(self) -> str:
        """Nowhere, for whoever is to be sent to the sign-in once they are in."""
        url = super().get_redirect_url()
        return "" if url == self.request.path else url

    def post(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        """Two at once, and one from an address: a stranger's thousand tries slow nobody's pages."""
        try:
            with READING.one(asker(request)):
                return super().post(request, *args, **kwargs)
        except BusyError:
            form = self.form_class(request, initial={"username": request.POST.get("username")})
            page = self.get_context_data(form=form, busy=True)
            return self.render_to_response(page, status=429)


class OldPasswordForm(PasswordChangeForm):
    """Whoever guesses at it, on a laptop that was left open, is counted as at the sign-in, but by
    themselves: the photographer, who has the same address, can sign in meanwhile."""

    def __init__(self, *args: Any, request: HttpRequest, **kwargs: Any) -> None:
        self.request = request
        super().__init__(*args, **kwargs)

    def clean_old_password(self) -> str:
        counted = {"username": f"{self.user.get_username()} (old password)"}  # no account's name
        self.request.axes_locked_out = not AxesProxyHandler.is_allowed(self.request, counted)
        if self.request.axes_locked_out:
            raise ValidationError(self.error_messages["password_incorrect"])  # axes answers 429
        try:
            return super().clean_old_password()
        except ValidationError:
            AxesProxyHandler.user_login_failed(type(self), counted, self.request)
            raise


class ChangePassword(SuccessMessageMixin, auth.PasswordChangeView):
    """Every other browser of this account is signed out by it."""

    form_class = OldPasswordForm

    template_name = "registration/change_password.html"
    success_url = reverse_lazy("season")
    success_message = _("Your password is changed. Other browsers must sign in again.")

    def get_form_kwargs(self) -> dict[str, Any]:
        return super().get_form_kwargs() | {"request": self.request}

    def post(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        try:
            with READING.one(asker(request)):
                return super().post(request, *args, **kwargs)
        except BusyError:
            words = _("Too many are signing in at this moment. Try again in a few seconds.")
            messages.error(request, words)
            return redirect("password")


class ChoosePassword(SuccessMessageMixin, auth.PasswordResetConfirmView):
    """Behind the link that the owner of the studio gave."""

    template_name = "registration/choose_password.html"
    success_url = reverse_lazy("login")
    success_message = _("Your password is kept. Sign in with it.")

    def get_user(self, uidb64: str) -> AbstractBaseUser | None:
        """Nobody, where the account was shut after the link was given."""
        user = super().get_user(uidb64)
        return user if user and user.is_active else None
