"""The secret address of a season's calendar: who may read it, made and revoked by its owner."""

from __future__ import annotations

import hashlib
import logging
from datetime import datetime, timedelta

from django.contrib.auth.models import AbstractBaseUser
from django.urls import reverse
from django.utils.crypto import constant_time_compare

from intake.keys import token_of, without_tail
from studio.member_models import Role, role_of

from .calendar_models import CalendarAddress

SUFFIX = ".ics"  # some readers ask for it
log = logging.getLogger("foreday.access")


def address_token(address: CalendarAddress) -> str:
    """Derived from the secret key, so that the database alone reveals no address."""
    return token_of("planning.calendar", f"{address.key}:{address.nonce}")


def address_path(address: CalendarAddress) -> str:
    return reverse("subscribed", args=[address.key, address_token(address) + SUFFIX])


def address_of(user: AbstractBaseUser) -> CalendarAddress | None:
    return CalendarAddress.objects.filter(user=user.pk).first()


def make_address(user: AbstractBaseUser) -> None:
    """A new one; the one before, if any, opens nothing any more."""
    revoke_address(user)
    CalendarAddress.objects.get_or_create(user=user)
    log.info("a calendar address made by account %s", user.pk)


def revoke_address(user: AbstractBaseUser) -> None:
    if CalendarAddress.objects.filter(user=user.pk).delete()[0]:
        log.info("a calendar address revoked by account %s", user.pk)


def opened(key: str, token: str) -> CalendarAddress | None:
    """The address of a key and its secret, while its owner may still see every wedding."""
    address = CalendarAddress.objects.select_related("user").filter(key=key).first()
    token = without_tail(token).removesuffix(SUFFIX)
    if address is None or not constant_time_compare(address_token(address), token):
        return None
    return address if role_of(address.user) >= Role.PHOTOGRAPHER else None


def changed_at(address: CalendarAddress, content: bytes, now: datetime) -> datetime:
    """Since when this is what the address gives, to the second, and never the same for two."""
    digest = hashlib.sha256(content).hexdigest()
    if address.digest != digest or address.changed_at is None:
        now = now.replace(microsecond=0)
        before = address.changed_at
        address.changed_at = max(now, before + timedelta(seconds=1)) if before else now
        address.digest = digest
    return address.changed_at


def keep(address: CalendarAddress) -> None:
    """What was given out; an address that was revoked meanwhile stays so."""
    rows = CalendarAddress.objects.filter(pk=address.pk)
    rows.update(digest=address.digest, changed_at=address.changed_at)
