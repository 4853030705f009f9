"""The map's page: where places are, and the drives that the plan needs."""

from datetime import time

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from intake.models import Moment, Place
from planning.models import Drive, PlaceSpot
from tests.page import Page, fields, said

MAP = "/w/thora-lukasz/map"
DAY = "/w/thora-lukasz/day"


@pytest.fixture
def places(wedding):
    """A church, where they also get ready, at 14:00 and a barn at 17:00."""
    church = Place.objects.create(
        wedding=wedding,
        key="church",
        name="St Æbbe",
        uses=["getting_ready", "ceremony"],
        position=0,
    )
    barn = Place.objects.create(
        wedding=wedding, key="barn", name="Barn", uses=["meal", "party"], position=1
    )
    Moment.objects.create(
        wedding=wedding, kind="ceremony", at=time(14), place=church, key="c", day=wedding.days.get()
    )
    Moment.objects.create(
        wedding=wedding, kind="meal", at=time(17), place=barn, key="m", day=wedding.days.get()
    )
    return church, barn


def test_a_wedding_without_places_says_so(photographer, wedding):
    assert "No place is listed yet" in said(photographer.get(MAP))
    assert photographer.post(MAP, {"home-latitude": "1"}).status_code == 302


def test_a_place_without_coordinates_says_what_its_light_needs(photographer, places):
    words = said(photographer.get("/w/thora-lukasz/light"))
    assert words.count("Light needs the place’s coordinates") == 2
    assert photographer.get(DAY).status_code == 200


def test_a_spot_is_kept_and_its_light_is_there(photographer, places):
    page = fields(photographer, MAP)
    page |= {"church-latitude": "55.6", "church-longitude": "-1.8"}
    assert photographer.post(MAP, page)["Location"] == DAY
    assert (places[0].spot.latitude, places[0].spot.longitude) == (55.6, -1.8)
    words = said(photographer.get("/w/thora-lukasz/light"))
    assert "Sunset" in words
    assert words.count("Light needs the place’s coordinates") == 1


@pytest.mark.parametrize(
    ("latitude", "longitude", "words"),
    [
        ("91", "0", "Latitude: enter a number from -90 to 90"),
        ("-90.01", "0", "Latitude: enter a number from -90 to 90"),
        ("50", "181", "Longitude: enter a number from -180 to 180"),
        ("north", "1", "Latitude: enter a number from -90 to 90"),
        ("nan", "1", "Latitude: enter a number from -90 to 90"),
        ("1e999", "1", "Latitude: enter a number from -90 to 90"),
        ("50", "", "Enter both figures, or neither."),
        ("", "-1.8", "Enter both figures, or neither."),
    ],
)
def test_a_spot_that_is_none_is_told_and_stays(photographer, places, latitude, longitude, words):
    page = fields(photographer, MAP) | {
        "church-latitude": latitude,
        "church-longitude": longitude,
        "barn-latitude": "55.7",
        "barn-longitude": "-1.9",
    }
    response = photographer.post(MAP, page)
    assert response.status_code == 200
    assert said(response).count(words) == 2  # in the summary and beside its field
    assert Page(response).fields["church-latitude"] == [latitude]
    assert Page(response).fields["barn-latitude"] == ["55.7"]
    assert not PlaceSpot.objects.exists()


@pytest.mark.parametrize("spot", [("90", "180"), ("-90", "-180"), ("0", "0"), ("78.2", "15.6")])
def test_every_page_works_at_the_ends_of_the_earth(photographer, places, spot):
    page = fields(photographer, MAP) | {"church-latitude": spot[0], "church-longitude": spot[1]}
    assert photographer.post(MAP, page).status_code == 302
    for name in ("answers", "light", "day", "calendar.ics"):
        assert photographer.get(f"/w/thora-lukasz/{name}").status_code == 200


def test_a_spot_is_taken_away_by_emptying_both_figures(photographer, places):
    PlaceSpot.objects.create(place=places[0], latitude=1, longitude=2)
    page = fields(photographer, MAP)
    assert page["church-latitude"] == ["1.0"]
    photographer.post(MAP, page | {"church-latitude": "", "church-longitude": ""})
    assert not PlaceSpot.objects.exists()


def test_only_the_drives_that_the_day_needs_are_asked(photographer, places):
    words = said(photographer.get(MAP))
    assert "St Æbbe – Barn" in words
    assert "Home – St Æbbe" in words
    assert "Home – Barn" not in words


def test_a_drive_is_kept_shown_again_and_taken_away(photographer, places):
    church, barn = places
    page = fields(photographer, MAP) | {"church.barn-map_minutes": "20", ".church-map_minutes": "9"}
    assert photographer.post(MAP, page).status_code == 302
    assert Drive.objects.get(origin=church, destination=barn).map_minutes == 20
    assert Drive.objects.get(origin=None, destination=church).map_minutes == 9
    page = fields(photographer, MAP)
    assert page["church.barn-map_minutes"] == ["20"]
    photographer.post(MAP, page | {"church.barn-map_minutes": ""})
    assert [d.destination for d in Drive.objects.all()] == [church]


def test_a_drive_home_that_is_known_is_shown_too(photographer, places):
    Drive.objects.create(
        wedding=places[0].wedding, origin=places[1], destination=None, map_minutes=30
    )
    page = fields(photographer, MAP)
    assert page["barn.-map_minutes"] == ["30"]
    assert "Barn – Home" in said(photographer.get(MAP))
    photographer.post(MAP, page | {"barn.-map_minutes": "35"})
    assert Drive.objects.get().map_minutes == 35


@pytest.mark.parametrize("minutes", ["-1", "1441", "soon", "1e3", "9" * 5000])
def test_a_drive_that_is_none_is_told_by_its_two_places(photographer, places, minutes):
    page = fields(photographer, MAP) | {"church.barn-map_minutes": minutes}
    response = photographer.post(MAP, page)
    assert said(response).count("St Æbbe – Barn: enter a number from 0 to 1440") == 2
    assert not Drive.objects.exists()


def test_keeping_the_page_twice_changes_nothing_twice(photographer, places):
    page = fields(photographer, MAP) | {"church.barn-map_minutes": "20", ".church-map_minutes": "9"}
    for _ in range(2):
        assert photographer.post(MAP, page).status_code == 302
    assert Drive.objects.count() == 2


def test_a_page_older_than_a_place_leaves_that_place_alone(photographer, places, wedding):
    page = fields(photographer, MAP)
    inn = Place.objects.create(wedding=wedding, key="inn", name="Inn", position=2)
    PlaceSpot.objects.create(place=inn, latitude=50, longitude=5)
    Drive.objects.create(wedding=wedding, origin=inn, destination=places[0], map_minutes=12)
    response = photographer.post(MAP, page | {"church-latitude": "91"})
    assert Page(response).fields["inn-latitude"] == ["50.0"]
    assert photographer.post(MAP, page).status_code == 302
    assert PlaceSpot.objects.get().place == inn
    assert Drive.objects.get().map_minutes == 12


def test_the_keys_of_two_pairs_of_places_never_meet(photographer, wedding):
    keys = ("a", "b-c", "a-b", "c")
    made = [Place.objects.create(wedding=wedding, key=key, name=key) for key in keys]
    Drive.objects.create(wedding=wedding, origin=made[0], destination=made[1], map_minutes=1)
    Drive.objects.create(wedding=wedding, origin=made[2], destination=made[3], map_minutes=2)
    page = fields(photographer, MAP)
    assert page["a.b-c-map_minutes"] == ["1"]
    assert page["a-b.c-map_minutes"] == ["2"]


def test_many_places_ask_no_more_of_the_database_than_few(photographer, wedding):
    def asked():
        with CaptureQueriesContext(connection) as queries:
            photographer.get(MAP)
        return len(queries)

    Place.objects.create(wedding=wedding, key="p", name="P")
    few = asked()
    Place.objects.bulk_create(
        Place(wedding=wedding, key=f"p{n}", name=f"Place {n}") for n in range(40)
    )
    assert asked() == few
