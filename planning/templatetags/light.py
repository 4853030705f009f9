"""Filters for pages and papers that speak of light."""

from __future__ import annotations

from django import template
from django.utils.formats import number_format

from planning.compute.planned import Visit
from planning.visit_words import CHECKLIST, visit_lines

register = template.Library()


@register.filter
def degrees(value: float) -> str:
    """2.1°"""
    return f"{number_format(value, 1)}°"


@register.filter
def lines_of(visit: Visit) -> list[str]:
    return visit_lines(visit)


@register.simple_tag
def visit_checklist() -> list[str]:
    return [str(item) for item in CHECKLIST]
