"""Bags for the tests, and any bag for Hypothesis."""

from dataclasses import replace

from hypothesis import strategies as st

from planning.compute.bag.items import KINDS, Item
from planning.compute.bag.need import Need

BODY = Item("a", "body", "First", mount="M", card_form="SD", power="P", raw_mb=30, shots=400)
CARD = Item("card", "card", "Card", card_form="SD", gb=64, speed=60)
CELL = Item("cell", "battery", "Battery", power="P")
ZOOM = Item("zoom", "lens", "Zoom", mount="M", wide=24, long=70, aperture=2.8)
FAST = Item("fast", "lens", "Fast", mount="M", wide=35, long=35, aperture=1.8)
FLASH = Item("flash", "flash", "Flash")
CHARGER = Item("charger", "charger", "Charger", power="P")
READER = Item("reader", "reader", "Reader", card_form="SD", speed=90)
DRIVE = Item("drive", "drive", "Drive", gb=1000, speed=90)

any_item = st.builds(
    Item,
    key=st.sampled_from("abcdefgh"),
    kind=st.sampled_from(KINDS),
    title=st.just("x"),
    mount=st.sampled_from(["M", "m ", "N"]),
    card_form=st.sampled_from(["SD", "sd", "CF"]),
    second_form=st.sampled_from(["", "CF"]),
    power=st.sampled_from(["P", "Q", ""]),
    slots=st.sampled_from([1, 2]),
    raw_mb=st.sampled_from([0.0, 20.0, 50.0]),
    shots=st.sampled_from([0, 300, 900]),
    wide=st.sampled_from([14.0, 35.0, 50.0]),
    long=st.sampled_from([50.0, 70.0, 200.0]),
    aperture=st.sampled_from([0.0, 1.8, 2.8]),
    gb=st.sampled_from([0.0, 16.0, 64.0, 256.0]),
    speed=st.sampled_from([0.0, 60.0]),
    old=st.booleans(),
    carried=st.sampled_from(["", "Pouch"]),
    taken=st.booleans(),
)


def unlike(items):
    """Things that have one key are alike, as those of one row are."""
    first = {}
    for item in items:
        first.setdefault(item.key, item)
    return tuple(first[item.key] for item in items)


def taking_both(item):
    """A reader and a charger may take several; all else has one form and one battery."""
    both = {"reader": {"card_form": "CF, SD"}, "charger": {"power": "Q,P"}}
    return replace(item, **both.get(item.kind, {})) if item.old else item


BASE = (BODY, CARD, CELL, ZOOM, FLASH, CHARGER, READER, DRIVE, replace(DRIVE, key="d2"))
# A second body with larger files and other batteries: its second slot takes the first one's cards.
OTHER = Item(
    "o", "body", "Other", mount="M", card_form="XQ", second_form="SD", slots=2, power="Q",
    raw_mb=50, shots=300,
)  # fmt: skip
TWO = (*BASE, OTHER, replace(CELL, key="q", power="Q"))
any_kit = st.builds(
    lambda items, base: unlike([*base, *map(taking_both, items)]),
    st.lists(any_item, max_size=7),
    st.sampled_from([(), BASE, TWO, (*TWO, replace(CHARGER, key="cq", power="Q"))]),
)
any_need = st.builds(
    Need,
    frames=st.sampled_from([0, 300, 1200, 2400]),
    raw_mb=st.just(30.0),
    gb=st.sampled_from([0.0, 9.0, 72.0]),
    copies=st.sampled_from([1, 2]),
    cold=st.booleans(),
    shots=st.sampled_from([0, 0, 1200]),
)
