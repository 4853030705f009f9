"""A first list in general terms, for who has typed nothing yet. No makers, no recommendations:
what a bag usually holds is `common practice, no source`, and every figure is to be changed."""

from django.utils.translation import gettext as _

from studio.in_turn import in_turn

from .kit_models import KitItem


@in_turn()
def add_starter_list() -> None:
    """Only into an empty kit; pressing twice makes one list."""
    if KitItem.objects.exists():
        return
    for values in _starter():
        KitItem.objects.create(**values)


def _starter() -> list[dict]:
    mount, form, power, main = _("your mount"), "SD", _("camera battery"), _("Main bag")
    pocket, cells = _("Pocket"), _("flash cells")
    body = {"mount": mount, "card_form": form, "power": power, "slots": 2}
    body |= {"raw_mb": 30, "shots": 380}
    return [
        {"kind": "body", "title": _("First body"), "carried": pocket} | body,
        {"kind": "body", "title": _("Second body"), "carried": main} | body,
        {"kind": "lens", "title": _("Standard zoom"), "mount": mount, "wide": 24, "long": 70,
         "aperture": 2.8, "carried": pocket},
        {"kind": "lens", "title": _("Longer zoom"), "mount": mount, "wide": 70, "long": 200,
         "aperture": 2.8, "carried": main},
        {"kind": "lens", "title": _("Fast wide lens"), "mount": mount, "wide": 35, "long": 35,
         "aperture": 1.8, "carried": main},
        {"kind": "flash", "title": _("Flash"), "power": cells, "count": 2, "carried": main},
        {"kind": "battery", "title": _("Set of flash cells"), "power": cells, "count": 4,
         "carried": main},
        {"kind": "card", "title": _("Card, 64 GB"), "card_form": form, "gb": 64, "speed": 60,
         "count": 8, "carried": pocket},
        {"kind": "battery", "title": _("Camera battery"), "power": power, "count": 6,
         "carried": pocket},
        {"kind": "charger", "title": _("Charger"), "power": power, "carried": main},
        {"kind": "reader", "title": _("Card reader"), "card_form": form, "speed": 90,
         "carried": main},
        {"kind": "drive", "title": _("Computer"), "speed": 300, "carried": _("At home")},
        {"kind": "drive", "title": _("Small drive"), "gb": 1000, "speed": 300, "carried": main},
        {"kind": "thing", "title": _("Lens cloth, tape, clips, pen"), "carried": main},
        {"kind": "thing", "title": _("Rain cover, umbrella"), "carried": main},
        {"kind": "thing", "title": _("Water, something to eat"), "carried": main},
    ]  # fmt: skip
