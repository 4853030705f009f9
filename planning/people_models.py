"""Which second photographer is put down for which wedding."""

from django.conf import settings
from django.db import models

from intake.models import Wedding


class Assigned(models.Model):
    """With it, a second photographer's sign-in opens their part of this wedding."""

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="assigned")
    user = models.ForeignKey(settings.AUTH_USER_MODEL, models.CASCADE, related_name="assigned")

    class Meta:
        ordering = ["pk"]
        constraints = [models.UniqueConstraint(fields=["wedding", "user"], name="assigned_once")]

    def __str__(self) -> str:
        return f"{self.user}: {self.wedding}"
