"""The secret links at which somebody else reads their own sheet on a phone."""

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from intake.keys import new_key, new_nonce
from intake.models import Wedding


class SheetLink(models.Model):
    """One reader's link; without this row they have none.

    `person` is the key of a helper in the couple's answers, so that a link never shows somebody
    else's sheet when the list is put in another order; empty where nobody is named.
    """

    class Sheet(models.TextChoices):
        SECOND = "second-photographer", _("Second photographer")
        CALLING = "calling-list", _("Calling list")

    wedding = models.ForeignKey(Wedding, models.CASCADE, related_name="sheet_links")
    sheet = models.CharField(max_length=40, choices=Sheet.choices)
    person = models.SlugField(max_length=40, blank=True)
    key = models.SlugField(max_length=40, unique=True, default=new_key)
    nonce = models.CharField(max_length=64, default=new_nonce)
    made_at = models.DateTimeField(default=timezone.now)

    class Meta:
        ordering = ["pk"]
        constraints = [
            models.UniqueConstraint(fields=["wedding", "sheet", "person"], name="sheet_link_once")
        ]

    def __str__(self) -> str:
        return f"{self.get_sheet_display()}: {self.wedding}"
