"""What people face at a place, and its skyline: typed, kept, shown again."""

import pytest

from intake.models import Place
from planning.brief import load_brief
from planning.models import PlaceSpot
from tests.page import Page, fields, said

MAP = "/w/thora-lukasz/map"


@pytest.fixture
def garden(wedding):
    uses = ["ceremony", "groups"]
    return Place.objects.create(wedding=wedding, key="garden", name="Garden", uses=uses)


FULL = {
    "garden-where": "51.4778, -0.0015",
    "garden-ceremony_facing": "south-west",
    "garden-group_facing": "22.5",
    "garden-skyline": "NW 12\r\n300 8,5",
}


def test_facings_and_skyline_are_kept_and_shown_again(photographer, garden):
    assert photographer.post(MAP, fields(photographer, MAP) | FULL).status_code == 302
    spot = PlaceSpot.objects.get()
    assert (spot.ceremony_facing, spot.group_facing) == (225, 22.5)
    assert spot.skyline == [[315, 12], [300, 8.5]]
    response = photographer.get(MAP)
    page = Page(response).fields
    assert page["garden-ceremony_facing"] == ["225"]
    assert page["garden-group_facing"] == ["22.5"]
    assert page["garden-skyline"] == ["315 12\r\n300 8.5"]
    assert "the couple face 225° (SW), groups face 22.5° (NNE)" in said(response)
    photographer.post(MAP, page)
    assert PlaceSpot.objects.get().skyline == [[315, 12], [300, 8.5]]
    (place,) = load_brief(garden.wedding).places
    assert place.skyline == ((315, 12), (300, 8.5))


@pytest.mark.parametrize(
    ("field", "text", "words"),
    [
        ("ceremony_facing", "361", ["The bearing 361 is not between 0 and 360 degrees."]),
        ("ceremony_facing", "the altar", ["is no direction we can read."]),
        ("group_facing", "-5", ["The bearing -5 is not between 0 and 360 degrees."]),
        ("group_facing", "٣٦١", ["The bearing 361 is not between 0 and 360 degrees."]),
        (
            "skyline",
            "NW 12\r\nthe barn\r\n10 95",
            ["Line 2: ", "Line 3: The height 95 is not between -10 and 90 degrees."],
        ),
    ],
)
def test_what_is_not_read_is_told_and_everything_typed_stays(
    photographer, garden, field, text, words
):
    page = fields(photographer, MAP) | FULL | {f"garden-{field}": text}
    response = photographer.post(MAP, page)
    assert response.status_code == 200
    for each in words:
        assert said(response).count(each) == 2  # in the summary and beside its field
    for name in FULL:
        assert Page(response).fields[name] == [page[name]]
    assert "<details open>" in response.content.decode()
    assert not PlaceSpot.objects.exists()


@pytest.mark.parametrize("field", ["ceremony_facing", "group_facing", "skyline"])
def test_what_needs_a_spot_first_says_so_and_loses_nothing(photographer, garden, field):
    page = fields(photographer, MAP) | {f"garden-{field}": FULL[f"garden-{field}"]}
    response = photographer.post(MAP, page)
    assert said(response).count("Say where this place is") == 2
    assert Page(response).fields[f"garden-{field}"] == [FULL[f"garden-{field}"]]


def test_the_summary_runs_down_the_page(photographer, garden):
    page = fields(photographer, MAP) | FULL | {"garden-where": "", "garden-skyline": "barn"}
    words = said(photographer.post(MAP, page))
    assert words.index("Say where this place is") < words.index("Line 1")


def test_a_spot_does_not_take_facings_away_with_it_unasked(photographer, garden):
    photographer.post(MAP, fields(photographer, MAP) | FULL)
    page = fields(photographer, MAP) | {"garden-where": ""}
    assert said(photographer.post(MAP, page)).count("Say where this place is") == 2
    assert PlaceSpot.objects.get().ceremony_facing == 225
    photographer.post(MAP, page | dict.fromkeys(FULL, ""))
    assert not PlaceSpot.objects.exists()


def test_emptied_boxes_are_taken_away_and_the_spot_stays(photographer, garden):
    photographer.post(MAP, fields(photographer, MAP) | FULL)
    page = fields(photographer, MAP)
    photographer.post(MAP, page | dict.fromkeys(FULL, "") | {"garden-where": page["garden-where"]})
    spot = PlaceSpot.objects.get()
    assert (spot.ceremony_facing, spot.group_facing, spot.skyline) == (None, None, [])


@pytest.mark.parametrize(
    ("uses", "asked"),
    [
        (["ceremony"], {"ceremony_facing"}),
        (["portraits"], {"group_facing"}),
        (["meal"], set()),
    ],
)
def test_a_facing_is_asked_where_the_places_uses_make_sense_of_it(
    photographer, wedding, garden, uses, asked
):
    Place.objects.create(wedding=wedding, key="hall", name="Hall", uses=uses, position=1)
    page = fields(photographer, MAP)
    assert {name.removeprefix("hall-") for name in page if name.startswith("hall-")} == {
        "where", "skyline", *asked,
    }  # fmt: skip


def test_a_facing_that_is_stored_is_shown_whatever_the_uses_are_now(photographer, garden):
    PlaceSpot.objects.create(place=garden, latitude=1, longitude=2, ceremony_facing=90)
    Place.objects.update(uses=["party"])
    assert fields(photographer, MAP)["garden-ceremony_facing"] == ["90"]


def test_a_page_older_than_a_use_leaves_its_facing_alone(photographer, garden):
    page = fields(photographer, MAP) | FULL
    photographer.post(MAP, page)
    for name in ("ceremony_facing", "skyline"):
        del page[f"garden-{name}"]
    photographer.post(MAP, page | {"garden-where": "51.5, 0"})
    spot = PlaceSpot.objects.get()
    assert (spot.latitude, spot.ceremony_facing, len(spot.skyline)) == (51.5, 225, 2)
    del page["garden-where"]
    photographer.post(MAP, page)
    assert PlaceSpot.objects.get().latitude == 51.5


def test_the_short_page_is_closed_until_something_is_in_it(photographer, garden):
    assert "<details><summary>" in photographer.get(MAP).content.decode()
    photographer.post(MAP, fields(photographer, MAP) | FULL)
    assert "<details open>" in photographer.get(MAP).content.decode()
