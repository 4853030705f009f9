"""Signing in, choosing and changing one's own password: Django's own views in our words."""

from typing import Any

from django.contrib.auth import views as auth
from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.messages.views import SuccessMessageMixin
from django.http import HttpRequest, HttpResponse
from django.urls import reverse_lazy
from django.utils.translation import gettext_lazy as _

from .asker import asker
from .turns import BusyError, Turns

# To read a password takes 100 MB and a third of a second, whoever sends it.
READING = Turns(2, each=1)


class SignIn(auth.LoginView):
    redirect_authenticated_user = True

    def post(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        """Two at once, and one from an address: a stranger's thousand tries slow nobody's pages."""
        try:
            with READING.one(asker(request)):
                return super().post(request, *args, **kwargs)
        except BusyError:
            form = self.form_class(request, initial={"username": request.POST.get("username")})
            page = self.get_context_data(form=form, busy=True)
            return self.render_to_response(page, status=429)


class ChangePassword(SuccessMessageMixin, auth.PasswordChangeView):
    """Every other browser of this account is signed out by it."""

    template_name = "registration/change_password.html"
    success_url = reverse_lazy("season")
    success_message = _("Your password is changed. Other browsers must sign in again.")


class ChoosePassword(SuccessMessageMixin, auth.PasswordResetConfirmView):
    """Behind the link that the owner of the studio gave."""

    template_name = "registration/choose_password.html"
    success_url = reverse_lazy("login")
    success_message = _("Your password is kept. Sign in with it.")

    def get_user(self, uidb64: str) -> AbstractBaseUser | None:
        """Nobody, where the account was shut after the link was given."""
        user = super().get_user(uidb64)
        return user if user and user.is_active else None
