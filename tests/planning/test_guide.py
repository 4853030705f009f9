"""First weddings: the guide leads to the screens, and experience beforehand is noted."""

from datetime import date, timedelta

import pytest
from django.utils import timezone

from intake.models import Wedding
from planning.compute.ready_items import ITEMS
from planning.guide import STAGES
from planning.models import Experience
from tests.page import Page, fields, said

PAGE, EXPERIENCE = "/first-weddings", "/experience"
TYPED = {
    "experience-0-on": "12 June 2026",
    "experience-0-role": "second",
    "experience-0-beside": "Ingrid Solheim",
    "experience-0-learnt": "Call the groups twice",
}


def press(client, **typed):
    return client.post(EXPERIENCE, fields(client, EXPERIENCE) | typed)


def test_it_goes_from_the_booking_to_the_night_after():
    keys = [stage.key for stage in STAGES]
    assert len(keys) == len(set(keys))
    order = ("before", "booking", "meeting", "visit", "week", "evening", "ceremony", "night")
    assert [key for key in keys if key in order] == list(order)


def test_every_link_opens_and_leads_to_the_next_wedding(photographer, wedding, other):
    wedding.days.update(date=timezone.localdate() + timedelta(days=5))
    other.days.update(date=timezone.localdate() + timedelta(days=50))
    page = Page(photographer.get(PAGE))
    assert "Þóra & Łukasz" in " ".join(page.words.split())
    screens = {each for each in page.links if each and each[0] == "/" and "/static/" not in each}
    for screen in (
        "link", "answers", "meeting", "groups", "visit", "light", "day", "late", "bag", "ready",
        "papers",
    ):  # fmt: skip
        assert f"/w/{wedding.public_id}/{screen}" in screens
    assert {"/insurance", "/kit", "/studio", EXPERIENCE} <= screens
    for link in screens:
        assert photographer.get(link).status_code == 200


def test_without_a_wedding_it_is_read_all_the_same(photographer):
    page = Page(photographer.get(PAGE))
    assert not [link for link in page.links if link and link.startswith("/w/")]
    assert "Once you have added a wedding" in page.words
    assert PAGE in Page(photographer.get("/")).links


def test_a_wedding_in_the_past_is_not_the_next(photographer, wedding):
    wedding.days.update(date=date(2024, 6, 1))
    assert f"/w/{wedding.public_id}/ready" not in Page(photographer.get(PAGE)).links
    Wedding.objects.create()  # without a date: nobody knows whether it comes next
    assert "Once you have added a wedding" in said(photographer.get(PAGE))


@pytest.mark.parametrize(
    "caution",
    [
        "Never look at the sun through the viewfinder",
        "Never drive tired",
        "drone",
        "Sparklers",
        "smoke",
        "allergies",
        "swollen or damaged",
        "Children only with their parents",
        "traffic, at an edge, in water",
        "water in heat",
    ],
)
def test_what_could_hurt_somebody_has_its_caution(photographer, caution):
    assert caution in said(photographer.get(PAGE))


def test_the_simple_photograph_comes_first(photographer):
    assert "take the simple photograph first" in said(photographer.get(PAGE))


def test_experience_as_second_is_noted_and_counted(photographer):
    assert "No wedding as second photographer is noted yet." in said(photographer.get(PAGE))
    assert press(photographer, **TYPED).status_code == 302
    row = Experience.objects.get()
    assert (row.on, row.role, row.beside) == (date(2026, 6, 12), "second", "Ingrid Solheim")
    words = said(photographer.get(PAGE))
    assert "One wedding as second photographer is noted. Three or more are usually" in words
    for number in (2, 3):
        Experience.objects.create(on=date(2026, 7, number))
    Experience.objects.create(on=date(2026, 7, 4), role="watched")
    words = said(photographer.get(PAGE))
    assert "3 weddings as second photographer are noted." in words
    assert "usually advised" not in words


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("on", "", "enter something here"),
        ("on", "31 June 2026", "Enter a date that exists"),
        ("role", "boss", "choose one that is in the list"),
        ("beside", "x" * 121, "Shorten this to 120 characters"),
        ("learnt", "x" * 1001, "Shorten this to 1000 characters"),
    ],
)
def test_what_cannot_be_is_told_beside_its_box(photographer, field, typed, words):
    response = press(photographer, **TYPED | {f"experience-0-{field}": typed})
    assert response.status_code == 200
    assert words in said(response)
    assert f"#id_experience-0-{field}" in Page(response).links
    assert not Experience.objects.exists()


def test_experience_is_removed_and_a_row_more_is_asked_for(photographer):
    press(photographer, **TYPED)
    more = press(photographer, do="add-experience")
    assert "experience-1-on" in Page(more).fields
    press(photographer, **{"experience-0-DELETE": "on"})
    assert not Experience.objects.exists()


def test_the_guide_and_the_ready_list_do_not_contradict_each_other():
    """Whatever the guide sends to Ready for, the list has."""
    titles = " ".join(item.title for item in ITEMS)
    for word in ("formatted", "Clocks", "Two copies", "another place", "step in", "Day pack"):
        assert word in titles
