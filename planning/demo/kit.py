"""The invented studio's kit. It looks complete; one hole is hidden in it, for Bag to find.

The second body takes cards of another form, and there is one small one: if the first body fails,
16 GB at 28 MB are 571 frames at most, for a day of a thousand.
"""

from __future__ import annotations

from planning.kit_models import KitItem

BODY = {"kind": "body", "mount": "Lark", "power": "Lark cell", "shots": 500}
LENS = {"kind": "lens", "mount": "Lark"}
MAIN, POCKET, CASE = "Shoulder bag", "Belt pouch", "Rolling case"
KIT = [
    BODY | {"title": "First body", "card_form": "SD", "slots": 2, "raw_mb": 30, "carried": POCKET},
    BODY | {"title": "Second body", "card_form": "CF", "slots": 1, "raw_mb": 28, "carried": MAIN},
    LENS | {"title": "24–70 zoom", "wide": 24, "long": 70, "aperture": 2.8, "carried": POCKET},
    LENS | {"title": "70–200 zoom", "wide": 70, "long": 200, "aperture": 2.8, "carried": MAIN},
    LENS | {"title": "35 mm", "wide": 35, "long": 35, "aperture": 1.8, "carried": MAIN},
    LENS | {"title": "85 mm", "wide": 85, "long": 85, "aperture": 1.8, "carried": CASE},
    {"kind": "flash", "title": "Flash", "count": 2, "power": "AA", "carried": CASE},
    {"kind": "battery", "title": "AA cells, set", "count": 6, "power": "AA", "carried": CASE},
    {"kind": "battery", "title": "Camera battery", "count": 4, "power": "Lark cell",
     "carried": POCKET},
    {"kind": "battery", "title": "Camera battery, second set", "count": 3, "power": "Lark cell",
     "carried": MAIN},
    {"kind": "battery", "title": "Old camera battery", "count": 2, "power": "Lark cell",
     "is_old": True, "carried": MAIN},
    {"kind": "card", "title": "SD card, 64 GB", "count": 10, "card_form": "SD", "gb": 64,
     "speed": 60, "carried": POCKET},
    {"kind": "card", "title": "CF card, 16 GB", "card_form": "CF", "gb": 16,
     "speed": 90, "carried": MAIN},
    {"kind": "charger", "title": "Charger", "count": 2, "power": "Lark cell", "carried": CASE},
    {"kind": "charger", "title": "Charger on the desk", "power": "Lark cell",
     "carried": "At home"},
    {"kind": "reader", "title": "Reader, both forms", "card_form": "SD, CF", "speed": 90,
     "carried": CASE},
    {"kind": "reader", "title": "Reader on the desk", "card_form": "SD, CF", "speed": 90,
     "carried": "At home"},
    {"kind": "drive", "title": "Computer", "gb": 400, "speed": 300, "carried": "At home"},
    {"kind": "drive", "title": "Small drive", "gb": 2000, "speed": 300, "carried": CASE},
    {"kind": "drive", "title": "Drive for Robin’s", "gb": 2000, "speed": 150, "carried": MAIN},
    {"kind": "thing", "title": "Rain covers, umbrella, tape, pens", "carried": CASE},
    {"kind": "thing", "title": "Water, something to eat", "carried": MAIN},
]  # fmt: skip


def lay_out_kit() -> None:
    """Only into an empty kit: what somebody changed while looking around stays theirs."""
    if not KitItem.objects.exists():
        for at, values in enumerate(KIT, 1):
            KitItem.objects.create(key=f"demo-{at}", **values)
