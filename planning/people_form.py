"""What the owner fills in about the people of the studio."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib.auth import get_user_model
from django.contrib.auth.models import User
from django.utils.translation import gettext_lazy as _

from intake.answer_form import words_for
from intake.models import Wedding
from studio.in_turn import in_turn
from studio.member_models import Member, Role, role_of
from studio.sessions import end_sessions

from .calendar_models import CalendarAddress
from .people_models import Assigned

LAST_OWNER = _("Somebody must own the studio: make another account the owner first.")


def owners() -> list[int]:
    """Accounts that own the studio and can sign in."""
    users = get_user_model().objects.filter(is_active=True).select_related("member")
    return [user.pk for user in users if role_of(user) == Role.OWNER]


def holds(form: forms.BaseForm) -> bool:
    """Whether it is right still, now that nobody else changes an account until it is written.

    Two owners who put each other down at one moment would leave a studio without any.
    """
    form.full_clean()
    return form.is_valid()


class NewPersonForm(forms.ModelForm):
    """An account without a password: whoever gets the link chooses their own."""

    role = forms.TypedChoiceField(
        label=_("What they may do"),
        choices=Role.choices[1:],
        coerce=int,
        widget=forms.RadioSelect,
        initial=Role.SECOND,
    )

    class Meta:
        model = User
        fields = ("username",)
        labels = {"username": _("Name to sign in with")}
        help_texts = {"username": _("Letters, digits and @ . + - _ without spaces.")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            field.error_messages |= words_for(field)
        attrs = {"autocomplete": "off", "autocapitalize": "none", "spellcheck": "false"}
        self.fields["username"].widget.attrs |= attrs
        self.fields["username"].widget.attrs.pop("autofocus", None)

    def clean_username(self) -> str:
        name = self.cleaned_data["username"]
        if User.objects.filter(username__iexact=name).exists():
            raise forms.ValidationError(_("There is an account of that name already."))
        return name

    @in_turn()
    def save(self) -> User | None:
        """The account; None where somebody made one of that name meanwhile."""
        if not holds(self):
            return None
        user = get_user_model().objects.create_user(self.cleaned_data["username"])
        Member.objects.create(user=user, role=self.cleaned_data["role"])
        return user


class PersonForm(forms.Form):
    """What an account may do, and whether it may sign in at all."""

    role = NewPersonForm.base_fields["role"]
    is_active = forms.BooleanField(label=_("May sign in"), required=False)

    def __init__(self, *args: Any, user: User, **kwargs: Any) -> None:
        self.user = user
        initial = {"role": int(role_of(user)) or Role.SECOND, "is_active": user.is_active}
        super().__init__(*args, initial=initial, **kwargs)
        self.fields["role"].error_messages |= words_for(self.fields["role"])

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        stays = data.get("is_active") and data.get("role") == Role.OWNER
        if "role" in data and not stays and owners() == [self.user.pk]:
            self.add_error("role", LAST_OWNER)
        return data

    @in_turn()
    def save(self) -> bool:
        """Whether it was kept. A superuser's right to everything is given up with the owner's role.
        Whoever may sign in again later has to: the phone that was lost does not come back in with
        them, and no calendar on it."""
        if not holds(self):
            return False
        role, self.user.is_active = self.cleaned_data["role"], self.cleaned_data["is_active"]
        self.user.is_superuser = self.user.is_superuser and role == Role.OWNER
        self.user.save(update_fields=["is_active", "is_superuser"])
        if not self.user.is_active:
            end_sessions(self.user)
            CalendarAddress.objects.filter(user=self.user).delete()
        Member.objects.update_or_create(user=self.user, defaults={"role": role})
        return True


class AssignedForm(forms.Form):
    """Which second photographers see their part of one wedding."""

    people = forms.TypedMultipleChoiceField(
        label=_("Second photographers of this wedding"),
        coerce=int,
        widget=forms.CheckboxSelectMultiple,
        required=False,
    )

    def __init__(self, *args: Any, wedding: Wedding, **kwargs: Any) -> None:
        self.wedding = wedding
        initial = {"people": list(wedding.assigned.values_list("user", flat=True))}
        super().__init__(*args, initial=initial, **kwargs)
        seconds = User.objects.filter(member__role=Role.SECOND, is_active=True)
        self.fields["people"].choices = seconds.order_by("username").values_list("pk", "username")

    @in_turn()
    def save(self) -> None:
        chosen = self.cleaned_data["people"]
        self.wedding.assigned.exclude(user__in=chosen).delete()
        for pk in chosen:
            Assigned.objects.get_or_create(wedding=self.wedding, user_id=pk)
