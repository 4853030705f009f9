"""What a planned day says of itself, for pages and papers."""

from __future__ import annotations

from django import template

from planning import day_words

register = template.Library()
register.filter("in_hundred", day_words.in_hundred)
