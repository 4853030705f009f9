"""What may be done with the pictures: the answers to choose from."""

from django.db import models
from django.utils.translation import gettext_lazy as _


class Online(models.TextChoices):
    YES = "yes", _("Yes")
    ASK = "ask", _("Ask us first")
    NO = "no", _("No")
    UNDECIDED = "undecided", _("We have not decided yet")


class Children(models.TextChoices):
    YES = "yes", _("Yes, their parents agree")
    ASK = "ask", _("Ask their parents first")
    NO = "no", _("No")
    UNDECIDED = "undecided", _("We have not decided yet")


class Gallery(models.TextChoices):
    TWO = "two", _("Only the two of us")
    GUESTS = "guests", _("Our guests too")
    ASK = "ask", _("Ask us first")
    UNDECIDED = "undecided", _("We have not decided yet")


class Suppliers(models.TextChoices):
    YES = "yes", _("Yes, pictures of their own work")
    ASK = "ask", _("Ask us first")
    NO = "no", _("No")
    UNDECIDED = "undecided", _("We have not decided yet")
