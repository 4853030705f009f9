"""The studio's kit: what is typed, what is refused, and that nothing typed is lost."""

from importlib import import_module
from types import SimpleNamespace

import pytest
from django.apps import apps
from django.db import connection
from django.urls import reverse

from intake.models import Wedding
from planning.brief import load_brief
from planning.brief_bag import Kit, is_here, own_pace, own_shots
from planning.compute.bag.items import several, slots_of, tidy
from planning.kit_form import MOST
from planning.models import BagNote, KitItem
from planning.ready_bag import charging
from tests.page import Page, said

KIT = reverse("kit")
BODY = {
    "title": "First body", "count": "1", "mount": "M", "card_form": "SD", "slots": "2",
    "power": "P", "raw_mb": "30.5", "shots": "380", "owner": "own",
}  # fmt: skip
LENS = {"title": "Zoom", "count": "1", "mount": "M", "wide": "24", "long": "70", "owner": "own"}
CARD = {"title": "Card", "count": "4", "card_form": "SD", "gb": "64", "owner": "own"}


def new(kind):
    return reverse("new_kit_item", args=[kind])


def test_an_empty_kit_says_how_to_begin_and_a_first_list_is_made_once(photographer):
    assert "Nothing is here yet" in said(photographer.get(KIT))
    for _ in range(2):
        photographer.post(KIT)
    titles = list(KitItem.objects.values_list("title", flat=True))
    assert len(titles) == len(set(titles)) > 10
    page = said(photographer.get(KIT))
    assert all(title in page for title in titles)


def test_the_first_list_passes_its_own_forms(photographer):
    photographer.post(KIT)
    for item in KitItem.objects.all():
        address = reverse("kit_item", args=[item.key])
        response = photographer.post(address, Page(photographer.get(address)).fields)
        assert response.status_code == 302, item.title


@pytest.mark.parametrize(("kind", "typed"), [("body", BODY), ("lens", LENS), ("card", CARD)])
def test_a_thing_is_added_changed_and_removed(photographer, kind, typed):
    assert photographer.post(new(kind), typed).url == KIT
    item = KitItem.objects.get()
    assert (item.kind, item.title) == (kind, typed["title"])
    address = reverse("kit_item", args=[item.key])
    assert photographer.post(address, typed | {"title": "Other"}).url == KIT
    assert KitItem.objects.get().title == "Other"
    photographer.post(address, {"do": "remove"})
    assert not KitItem.objects.exists()


@pytest.mark.parametrize(
    ("kind", "typed", "told"),
    [
        ("card", CARD | {"gb": "0"}, "GB: enter a number from 0.1 to 200000."),
        ("card", CARD | {"gb": ""}, "GB"),
        ("card", CARD | {"gb": "nan"}, "GB: enter a number from 0.1 to 200000."),
        ("card", CARD | {"count": "0"}, "How many alike: enter a number from 1 to 99."),
        ("card", CARD | {"count": "100"}, "How many alike: enter a number from 1 to 99."),
        ("lens", LENS | {"wide": "70", "long": "24"}, "swap the two"),
        ("lens", LENS | {"aperture": "0"}, "enter a number from 0.5 to 64"),
        ("lens", LENS | {"wide": "x"}, "enter a number from 1 to 3000"),
        ("body", BODY | {"shots": "0"}, "enter a number from 1 to 20000"),
        ("body", BODY | {"shots": "9" * 30}, "enter a number from 1 to 20000"),
        ("body", BODY | {"title": ""}, "What you call it"),
        ("body", BODY | {"title": "x" * 81}, "80"),
        ("body", BODY | {"title": "nul\0"}, "Null characters"),
        ("body", BODY | {"slots": "3"}, "slots"),
        ("body", BODY | {"card_form": "XQ, SD"}, "that of the second slot has its own box"),
        ("body", BODY | {"slots": "1", "second_form": "SD"}, "It records on one slot"),
        ("body", BODY | {"second_form": "SD, CF"}, "Name one."),
        ("body", BODY | {"second_form": "x" * 41}, "40"),
        ("card", CARD | {"title": "\u200b"}, "What you call it"),
        ("card", CARD | {"card_form": "SD, CF"}, "Name one. Only readers and chargers"),
        (
            "lens",
            LENS | {"owner": "hired", "had_from": "2 June 2027", "back_by": "1 June 2027"},
            "It goes back before it comes",
        ),
        ("lens", LENS | {"back_by": "1 June 2027"}, "for what is hired or borrowed"),
        ("lens", LENS | {"owner": "hired", "back_by": "31 June 2027"}, "date"),
    ],
)
def test_what_cannot_be_is_told_beside_its_box_and_stays_typed(photographer, kind, typed, told):
    page = photographer.post(new(kind), typed)
    assert page.status_code == 200
    assert len(page.context["errors"]) == 1
    if told not in {"slots", "date", "GB", "What you call it"}:
        assert told in said(page)
    kept = Page(page).fields
    for name, value in typed.items():
        if name != "slots":
            assert kept[name] == [value.replace("\0", "\0")], name
    assert not KitItem.objects.exists()


def test_a_body_of_two_forms_a_reader_and_a_charger_of_several_are_kept(wedding, photographer):
    one = {"count": "1", "owner": "own"}
    photographer.post(new("body"), BODY | {"card_form": "XQ", "second_form": "SD"})
    photographer.post(new("reader"), one | {"title": "Reader", "card_form": "SD, XQ"})
    photographer.post(new("charger"), one | {"title": "Charger", "power": "P, Q"})
    body, reader, charger = load_brief(wedding).kit
    assert (slots_of(body), several(reader.card_form)) == (("xq", "sd"), ("sd", "xq"))
    assert several(charger.power) == ("p", "q")
    proposed = photographer.get(new("card")).context["known"]["card_form"]
    assert proposed == ["SD", "XQ"]


def test_a_comma_in_an_older_name_goes_and_what_fitted_goes_on_fitting(db):
    body = KitItem.objects.create(kind="body", title="B", card_form="SD, fast", power="P")
    card = KitItem.objects.create(kind="card", title="C", card_form="sd,fast")
    second_slot = import_module("planning.migrations.0019_second_slot")
    second_slot.one_name_each(apps, SimpleNamespace(connection=connection))
    body.refresh_from_db(), card.refresh_from_db()
    assert (body.card_form, body.power) == ("SD fast", "P")
    assert tidy(body.card_form) == tidy(card.card_form)


def test_a_charger_charges_its_batteries_however_they_are_typed():
    kit = [
        KitItem(pk=1, kind="battery", power="Lark cell", title="B"),
        KitItem(pk=2, kind="charger", power="LARK  Cell, Other", title="C"),
    ]
    assert charging(kit, {1: 4, 2: 2}) == 5.0  # two turns of 2.5 hours
    assert charging(kit, {1: 4, 2: 0}) == 0.0


def test_there_is_an_end_to_them(photographer):
    for number in range(5):
        KitItem.objects.create(kind="thing", title=f"Thing {number}", count=99)
    page = photographer.post(new("thing"), {"title": "More", "count": "6", "owner": "own"})
    assert f"more than {MOST} things" in said(page)
    assert photographer.post(new("thing"), {"title": "More", "count": "5", "owner": "own"}).url


@pytest.mark.parametrize("address", [new("body")[:-4] + "tripod", "/kit/nothing", "/kit/new/"])
def test_what_is_not_there_is_told_calmly(photographer, address):
    assert photographer.get(address).status_code == 404


def test_a_hired_thing_goes_only_while_it_is_there(wedding, photographer):
    lens = KitItem(kind="lens", owner="hired", title="Hired")
    dates = wedding.dates
    assert is_here(lens, dates)
    lens.back_by = dates[0]
    assert is_here(lens, dates)
    lens.back_by = dates[0].replace(day=11)
    assert not is_here(lens, dates)
    lens.save()
    assert load_brief(wedding).kit == ()


def test_ones_own_counts_take_over_from_the_second_wedding_on(wedding, other):
    def count(whose, taken, expected, charges=None):
        values = {"frames_taken": taken, "frames_expected": expected, "charges_used": charges}
        BagNote.objects.update_or_create(wedding=whose, defaults=values)

    def own():
        counted = Kit.read().counted
        return own_pace(third, counted), own_shots(third, counted)

    third = Wedding.objects.create(public_id="third")
    assert own() == (1.0, 0)
    count(wedding, 3000, 1000, charges=2)
    assert own() == (1.0, 0)
    count(other, 1000, 1000)
    assert own() == (2.0, 0)  # charges were counted once
    count(other, 1000, 1000, charges=2)
    assert own() == (2.0, 1000)
    count(third, 1, 1000, charges=99)
    assert own() == (2.0, 1000)  # its own day was not yet taken when it was planned


def test_ones_own_counts_are_those_of_the_last_five_weddings():
    notes = [BagNote(wedding_id=n, frames_taken=100 * n, charges_used=1) for n in range(1, 10)]
    assert own_shots(Wedding(pk=99), notes[::-1]) == 700
    slip = [BagNote(wedding_id=n, frames_taken=1, charges_used=50) for n in (1, 2)]
    assert own_shots(Wedding(pk=99), slip) == 50


def test_two_who_change_one_thing_at_once_undo_nothing_of_each_other(photographer):
    photographer.post(new("lens"), LENS)
    address = reverse("kit_item", args=[KitItem.objects.get().key])
    first, second = (dict(Page(photographer.get(address)).fields) for _each in range(2))
    photographer.post(address, first | {"title": "The long one", "aperture": "2,8"})
    photographer.post(address, second | {"carried": "Belt pouch", "long": ""} | {"long": "70"})
    item = KitItem.objects.get()
    assert (item.title, item.aperture, item.carried) == ("The long one", 2.8, "Belt pouch")
