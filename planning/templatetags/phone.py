"""What a phone can do with what it shows: call a number, open a spot in its map, tell the time."""

from __future__ import annotations

from django import template

from intake.phones import to_dial
from planning.paper.helper import steps_of

register = template.Library()
register.filter("to_dial", to_dial)
register.filter("steps_of", steps_of)
