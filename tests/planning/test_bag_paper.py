"""The part Bag of the day pack: one page to pack by, and what is not covered."""

import io

import pytest
from django.urls import reverse
from pypdf import PdfReader

from planning.demo.load import load_season
from planning.models import KitItem
from tests.page import said
from tests.planning.demo.test_load import TODAY

PACK = "/w/thora-lukasz/day-pack.pdf"


def pages_of(client, address, size):
    response = client.get(address, {"size": size, "part": ["bag"]})
    assert response.status_code == 200, response
    reader = PdfReader(io.BytesIO(response.content))
    return [" ".join(page.extract_text().split()) for page in reader.pages]


@pytest.mark.parametrize("size", ["a4", "a6-pages"])
def test_the_demo_bag_is_one_page_with_a_box_for_each_thing(db, photographer, size):
    wedding = load_season(TODAY)[0]
    address = reverse("paper", args=[wedding.public_id, "day-pack"])
    (page,) = pages_of(photographer, address, size)
    assert page.count("☐") == KitItem.objects.count()
    for item in KitItem.objects.all():
        assert item.title in page
    for words in (
        "Belt pouch",
        "SD card, 64 GB × 10",
        "If “First body” fails",
        "One goes elsewhere",
    ):
        assert words in page


def test_without_a_kit_there_is_no_such_part(photographer, timed):
    assert "Bag (your kit is empty)" in said(photographer.get("/w/thora-lukasz/papers"))


def test_what_stays_at_home_is_not_printed(photographer, timed):
    KitItem.objects.create(kind="thing", title="Umbrella", key="umbrella")
    KitItem.objects.create(kind="thing", title="Ladder", key="ladder", count=2, carried="Car")
    address = reverse("bag", args=["thora-lukasz"])
    photographer.post(address, {"count-umbrella": "", "was-umbrella": "1", "count-ladder": "2"})
    (page,) = pages_of(photographer, PACK, "a4")
    assert "Ladder × 2" in page
    assert "Umbrella" not in page


def test_a_van_full_of_things_runs_over_pages_and_loses_none(photographer, timed):
    KitItem.objects.bulk_create(
        KitItem(kind="thing", title=f"Thing {n} عدسة", key=f"t{n}", carried="Van" if n % 2 else "")
        for n in range(500)
    )
    text = " ".join(pages_of(photographer, PACK, "a4"))
    assert text.count("☐") == 500
    assert all(f"Thing {n} " in text for n in range(500))
