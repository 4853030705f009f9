"""Who works in the studio, and as what."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _


class Role(models.IntegerChoices):
    """Each may do what the one before may, and more; planning/access.py says what."""

    NOBODY = 0, _("nobody")
    SECOND = 1, _("second photographer: only the weddings they are put down for")
    PHOTOGRAPHER = 2, _("photographer: every wedding")
    OWNER = 3, _("owner: every wedding, the studio and its people")


class Member(models.Model):
    """What one account may do. An account without this row opens nothing."""

    user = models.OneToOneField(settings.AUTH_USER_MODEL, models.CASCADE, related_name="member")
    role = models.PositiveSmallIntegerField(
        _("what they may do"), choices=Role.choices[1:], default=Role.SECOND
    )

    def __str__(self) -> str:
        return f"{self.user}: {self.get_role_display()}"


def role_of(user: Any) -> Role:
    """What an account may do; NOBODY for a stranger. `createsuperuser` makes an owner."""
    if not user.is_authenticated or not user.is_active:
        return Role.NOBODY
    if user.is_superuser:
        return Role.OWNER
    member = Member.objects.filter(user=user).first()
    return Role(member.role) if member else Role.NOBODY
