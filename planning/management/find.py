"""The wedding a command is about, or one clear line why there is none."""

from __future__ import annotations

from django.core.management.base import CommandError
from django.db import OperationalError, ProgrammingError

from intake.models import Wedding
from planning.brief import load_brief
from planning.compute.day import plan_wedding
from planning.compute.planned import Plan


def find_plan(public_id: str) -> Plan:
    """The plan of a wedding by its public id; CommandError (exit 2) where it cannot be."""
    return plan_wedding(load_brief(find_wedding(public_id)))


def find_wedding(public_id: str) -> Wedding:
    """The wedding of a public id; CommandError (exit 2) where there is none."""
    try:
        public_id.encode()
    except UnicodeEncodeError:
        raise CommandError("That is no wedding's public id.", returncode=2) from None
    try:
        wedding = Wedding.objects.filter(public_id=public_id).first()
    except (OperationalError, ProgrammingError):
        raise CommandError(
            "There is no database yet: run migrate, or demo.",
            returncode=2,
        ) from None
    if wedding is None:
        raise CommandError(f"There is no wedding {public_id!r}.", returncode=2)
    return wedding
