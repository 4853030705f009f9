"""The season as a list: each wedding is a module of its own."""

from __future__ import annotations

from datetime import date

from . import far_hillside, orchard_barn, town_hall, two_days, two_villages, winter_hall
from .wedding import DemoWedding

WEDDINGS = (orchard_barn, two_villages, two_days, winter_hall, far_hillside, town_hall)

PUBLIC_IDS = tuple(module.ID for module in WEDDINGS)


def season(today: date) -> list[DemoWedding]:
    """Every invented wedding, earliest first."""
    weddings = [module.wedding(today) for module in WEDDINGS]
    return sorted(weddings, key=lambda demo: demo.brief.days[0].date)
