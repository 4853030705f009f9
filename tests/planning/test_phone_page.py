"""The day on the photographer's own phone: readable without a script, and without a network."""

import re
from contextlib import closing
from datetime import time

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from intake.models import CareNote, Contact, Group, MustHave, Place
from planning.models import BlockDecision, PlaceSpot
from tests.page import Page, said

PHONE = "/w/thora-lukasz/phone"


@pytest.fixture
def full(timed):
    barn = Place.objects.get(key="barn")
    Place.objects.filter(pk=barn.pk).update(
        address="Pear Lane\nHallowby", wet_plan="The cart shed", not_allowed="No flash",
        coordinator="Ríona", coordinator_phone="01632 960101", uses=["ceremony", "groups"],
    )  # fmt: skip
    PlaceSpot.objects.create(place=barn, latitude=52.5, longitude=-2.25)
    for number, people in enumerate(("Ana\nBo", "Bo\nCy", "Cy"), 1):
        Group.objects.create(
            wedding=timed, key=f"g{number}", title=f"Group {number}", people=people, wish="must"
        )
    Contact.objects.create(
        wedding=timed, key="h", listed_as="helper", name="Ragnar", phone="07700 900111"
    )
    timed.contacts.create(key="s", listed_as="supplier", name="Odile", phone="ask at the bar")
    MustHave.objects.create(wedding=timed, key="m", text="The watch", kind="ceremony")
    CareNote.objects.create(wedding=timed, key="c", person="Ana", kind="seat", note="Her hip")
    day = timed.days.get()
    indoors = {"wet_place": barn, "wet_least": 10, "wet_likely": 15, "wet_most": 20}
    BlockDecision.objects.create(day=day, key="vows", **indoors)
    return timed


def html(client, query=""):
    return client.get(PHONE + query).content.decode()


def test_everything_is_in_the_page_as_it_comes_from_the_server(photographer, full):
    words = said(photographer.get(PHONE))
    for part in (
        "Leave home", "Rain: decide by", "14:00 Ceremony", "fixed time", "17:00",
        "Call together first: Ana, Bo", "Who to call", "Ragnar", "Places", "Pear Lane",
        "The cart shed", "No flash", "Photographs they want", "The watch",
        "So that nobody is hurt",
        "never read this at the wheel", "Never look at the sun through the viewfinder",
    ):  # fmt: skip
        assert part in words, part


def test_what_needs_a_script_is_hidden_until_one_runs(photographer, full):
    page = html(photographer)
    for name in ("now", "newer"):
        assert re.search(rf'id="{name}"[^>]* hidden', page)


def test_everybody_is_called_once_together_first_or_while_the_group_before_is_taken(
    photographer, full
):
    page = html(photographer)
    first = re.search(r"Call together first:</b> <span[^>]*>(.*?)\s*</span>", page)[1]
    fetched = re.findall(r"Meanwhile fetch:</b> <span[^>]*>(.*?)\s*</span>", page)
    called = ", ".join([first, *fetched]).split(", ")
    assert fetched
    assert sorted(called) == ["Ana", "Bo", "Cy"]


def test_a_phone_number_can_be_pressed_and_what_is_none_is_only_read(photographer, full):
    page = html(photographer)
    assert 'href="tel:+44-7700-900111">07700 900111</a>' in page
    assert 'href="tel:+44-1632-960101">01632 960101</a>' in page
    assert '<span class="tel">ask at the bar</span>' in page


def test_a_place_opens_in_the_phones_own_map(photographer, full):
    """geo: is RFC 5870, section 3.3: latitude, comma, longitude, in WGS 84."""
    assert 'href="geo:52.50000,-2.25000"' in html(photographer)


@pytest.mark.parametrize("anchor", ["day", "groups", "calls", "places"])
def test_every_jump_under_the_thumb_lands(photographer, full, anchor):
    page = Page(photographer.get(PHONE))
    assert anchor in page.ids
    assert f'<a href="#{anchor}">' in html(photographer)


def test_each_block_says_its_instants_for_the_phones_clock(photographer, full):
    """14:00 British Summer Time on 12 June 2027 is 13:00 UTC, second 1812805200 (`date -u -d`)."""
    assert re.search(r'class="ceremony fixed" data-from="1812805200"', html(photographer))


def test_the_mark_is_that_of_the_papers(photographer, full):
    mark = re.search(r'data-mark="(\w{4})"', html(photographer))[1]
    assert f"print {mark}" in said(photographer.get("/w/thora-lukasz/papers"))
    full.moments.update(at=time(15))
    assert f'data-mark="{mark}"' not in html(photographer)


def test_a_browser_keeps_it_only_where_it_is_asked_to(photographer, full):
    assert photographer.get(PHONE)["Cache-Control"] == "private, no-store"
    kept = photographer.get(f"{PHONE}?kept=1")
    assert set(kept["Cache-Control"].split(", ")) == {"private", "max-age=43200"}
    assert "Cookie" in kept["Vary"]
    assert "This phone keeps the page for twelve hours" in said(kept)


def test_an_empty_wedding_has_a_page_too(photographer, wedding):
    wedding.days.all().delete()
    response = photographer.get(PHONE)
    assert response.status_code == 200
    assert "Þóra" in said(response)
    assert "So that nobody is hurt" in said(response)


def test_it_is_reached_from_day_and_papers(photographer, timed):
    for page in ("day", "papers"):
        assert f'href="{PHONE}"' in photographer.get(f"/w/thora-lukasz/{page}").content.decode()


def test_the_database_is_asked_the_same_for_one_group_and_for_forty(photographer, full):
    def asked():
        with CaptureQueriesContext(connection) as queries:
            photographer.get(PHONE)
        return len(queries)

    few = asked()
    for number in range(40):
        Group.objects.create(wedding=full, title=f"More {number}", people=f"P{number}", wish="must")
        full.contacts.create(listed_as="contact", name=f"C{number}", phone="07700 900112")
    assert asked() == few


def test_what_it_is_drawn_with_is_there_without_a_network_as_long_as_the_page(photographer, full):
    """stale-while-revalidate: RFC 5861, section 3."""
    page = html(photographer)
    drawn = [each for each in re.findall(r"/static/[^\"]+", page) if each.endswith((".css", ".js"))]
    assert len(drawn) == 4
    for address in drawn:
        with closing(photographer.get(address)) as file:
            assert "stale-while-revalidate=43200" in file["Cache-Control"], address
