"""Choosing and changing one's own password: Django's own views in our words."""

from django.contrib.auth import views as auth
from django.contrib.messages.views import SuccessMessageMixin
from django.urls import reverse_lazy
from django.utils.translation import gettext_lazy as _


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
