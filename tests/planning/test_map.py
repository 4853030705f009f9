"""The map's page: where places are, and the drives that the plan needs."""

from datetime import date, time

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
    assert photographer.post(MAP, {"home-where": "1, 1"}).status_code == 302


def test_a_place_without_coordinates_says_what_its_light_needs(photographer, places):
    words = said(photographer.get("/w/thora-lukasz/light"))
    assert words.count("Light needs the place’s coordinates") == 2
    assert photographer.get(DAY).status_code == 200


def test_a_spot_is_kept_said_back_and_its_light_is_there(photographer, places):
    page = fields(photographer, MAP) | {"church-where": "55.6, -1.8"}
    assert photographer.post(MAP, page)["Location"] == MAP
    assert (places[0].spot.latitude, places[0].spot.longitude) == (55.6, -1.8)
    words = said(photographer.get("/w/thora-lukasz/light"))
    assert "Sunset" in words
    assert words.count("Light needs the place’s coordinates") == 1


@pytest.mark.parametrize(
    "text",
    [
        "51.4778, -0.0015",
        "51°28'40.08\"N 0°0'5.4\"W",
        "geo:51.4778,-0.0015;u=10",
        "https://map.example/place/@51.4778,-0.0015,17z/x",
        "The Old Barn, 5 Mill Lane, 51.4778, -0.0015, ring twice",
    ],
)
def test_one_box_reads_every_shape_and_shows_a_pair_that_reads_back(photographer, places, text):
    photographer.post(MAP, fields(photographer, MAP) | {"church-where": text})
    first = PlaceSpot.objects.get()
    assert (first.latitude, first.longitude) == (51.4778, -0.0015)
    page = fields(photographer, MAP)
    assert page["church-where"] == ["51.4778, -0.0015"]
    photographer.post(MAP, page)
    again = PlaceSpot.objects.get()
    assert (again.latitude, again.longitude) == (first.latitude, first.longitude)


def test_a_full_plus_code_is_read(photographer, places):
    # Centre as printed in the Open Location Code specification, section Short Codes.
    photographer.post(MAP, fields(photographer, MAP) | {"church-where": "8fvc9g8f+6w, the gate"})
    spot = PlaceSpot.objects.get()
    assert spot.latitude == pytest.approx(47.365562, abs=1e-6)
    assert spot.longitude == pytest.approx(8.524813, abs=1e-6)


def test_a_spot_stored_more_finely_than_typed_stays_as_it_is(photographer, places):
    PlaceSpot.objects.create(place=places[0], latitude=0.1 + 0.2, longitude=1e-07)
    photographer.post(MAP, fields(photographer, MAP))
    spot = PlaceSpot.objects.get()
    assert (spot.latitude, spot.longitude) == (0.1 + 0.2, 1e-07)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("91, 0", "Latitude 91 is beyond 90. Latitude comes first: is it 0, 91?"),
        ("-90.01, 100", "Latitude -90.01 is not between -90 and 90 degrees."),
        ("50, 181", "Longitude 181 is not between -180 and 180 degrees."),
        ("geo:91,200", "Latitude 91 is not between -90 and 90 degrees."),
        ("north, 1", "There are no coordinates in that text."),
        ("nan, 1", "There are no coordinates in that text."),
        ("1e999, 1", "There are no coordinates in that text."),
        ("50", "There are no coordinates in that text."),
        (", -1.8", "There are no coordinates in that text."),
        ("9G8F+6W Oldtown", "9G8F+6W is a short Plus Code"),
        ("51.4778,-0.0015 or 48.8584,2.2945", "There is more than one place in that text"),
        ("51°61'N 0°5'W", "In 51°61'N minutes and seconds must be less than 60"),
        ("הגן, מגדל", "There are no coordinates in that text."),
        ("9" * 4000 + "7", "That text is longer than 4000 letters."),
        ("1\0, 2", "Null characters are not allowed."),
    ],
)
def test_a_spot_that_is_none_is_told_and_stays(photographer, places, text, words):
    page = fields(photographer, MAP) | {"church-where": text, "barn-where": "55.7, -1.9"}
    response = photographer.post(MAP, page)
    assert response.status_code == 200
    assert said(response).count(words) == 2  # in the summary and beside its field
    assert f"St Æbbe: {words}" in said(response)
    assert Page(response).fields["church-where"] == [text]
    assert Page(response).fields["barn-where"] == ["55.7, -1.9"]
    assert not PlaceSpot.objects.exists()


@pytest.mark.parametrize("spot", ["90, 180", "-90, -180", "0, 0", "78.2, 15.6", "0, -180"])
@pytest.mark.parametrize("day", [date(2027, 6, 12), date(1899, 6, 12), date(2200, 1, 1)])
def test_every_page_works_at_the_ends_of_the_earth_and_of_time(photographer, places, spot, day):
    places[0].wedding.days.update(date=day)
    page = fields(photographer, MAP) | {"church-where": spot}
    assert photographer.post(MAP, page).status_code == 302
    for name in ("map", "answers", "light", "day", "calendar.ics"):
        assert photographer.get(f"/w/thora-lukasz/{name}").status_code == 200


def test_a_spot_is_taken_away_by_emptying_its_box(photographer, places):
    PlaceSpot.objects.create(place=places[0], latitude=1, longitude=2)
    page = fields(photographer, MAP)
    assert page["church-where"] == ["1.0, 2.0"]
    photographer.post(MAP, page | {"church-where": " "})
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
    response = photographer.post(MAP, page | {"church-where": "91"})
    assert Page(response).fields["inn-where"] == ["50.0, 5.0"]
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
