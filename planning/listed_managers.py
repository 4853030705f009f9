"""Decisions without those that rest on a row that was taken out of the answers (taken_out.py)."""

from django.db import models


class ListedDrives(models.Manager):
    def get_queryset(self) -> models.QuerySet:
        return super().get_queryset().filter(origin__removed_at=None, destination__removed_at=None)


class ListedRules(models.Manager):
    def get_queryset(self) -> models.QuerySet:
        return super().get_queryset().filter(one__removed_at=None, other__removed_at=None)
