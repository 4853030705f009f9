"""What every row of the couple's lists has, and what is kept of one that they remove."""

from datetime import datetime

from django.db import models
from django.utils import timezone

from .keys import new_key


class Row(models.Model):
    """A row of one of the couple's lists.

    `key` is made where the row is first shown, so that the same form posted twice, or by both
    partners, changes one row and never makes two.
    """

    wedding = models.ForeignKey("intake.Wedding", models.CASCADE, related_name="%(class)ss")
    key = models.SlugField(max_length=40, default=new_key)
    position = models.PositiveIntegerField(default=0)

    class Meta:
        abstract = True
        ordering = ["position", "pk"]
        constraints = [
            models.UniqueConstraint(fields=["wedding", "key"], name="%(class)s_key_once")
        ]


class Listed(models.Manager):
    def get_queryset(self) -> models.QuerySet:
        return super().get_queryset().filter(removed_at=None)


class WithRemoved(models.Manager):
    """All rows there are."""


class Anchor(Row):
    """A row that decisions of the photographer's hang on, which a couple knows nothing of.

    Where there are some, a row that is removed leaves every list and page, and is kept with them
    until the photographer has seen it (planning/removed.py).
    """

    removed_at = models.DateTimeField(null=True, blank=True, editable=False)

    objects = Listed()
    with_removed = WithRemoved()

    class Meta(Row.Meta):
        abstract = True

    def take_out(self) -> None:
        if not self._is_leaned_on():
            self.delete()
            return
        for relation in self._others(own=True):  # as if it were deleted
            getattr(self, relation.get_accessor_name()).clear()
        self._set_removed(timezone.now())

    def bring_back(self) -> None:
        self._set_removed(None)

    def _set_removed(self, at: datetime | None) -> None:
        self.removed_at = at
        self.save(update_fields=["removed_at"])

    def _is_leaned_on(self) -> bool:
        return any(
            relation.related_model._base_manager.filter(**{relation.field.name: self}).exists()
            for relation in self._others(own=False)
        )

    def _others(self, own: bool) -> list[models.ForeignObjectRel]:
        """What points at such rows: in the couple's own tables, or in anybody else's."""
        return [
            relation
            for relation in self._meta.related_objects
            if own == (relation.related_model._meta.app_label == self._meta.app_label)
        ]
