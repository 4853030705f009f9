"""What the map's page says back about a spot, and what it asks."""

from datetime import UTC, date, datetime, time

import pytest
from django.utils.html import escape

from intake.models import Moment, Place
from planning.models import Decisions, PlaceSpot
from tests.page import Page, fields, said

MAP = "/w/thora-lukasz/map"


@pytest.fixture
def church(wedding):
    return Place.objects.create(wedding=wedding, key="church", name="St Æbbe", position=0)


def put(place, latitude, longitude):
    PlaceSpot.objects.update_or_create(
        place=place, defaults={"latitude": latitude, "longitude": longitude}
    )


def offers(response):
    text = response.content.decode()
    return [part.split('"')[0] for part in text.split('name="do" value="')[1:]]


def pressed(response):
    return [offer for offer in offers(response) if offer != "save"]


def test_a_spot_says_where_it_is_and_when_the_sun_sets_there(photographer, church):
    put(church, 55.6, -1.8)
    response = photographer.get(MAP)
    words = said(response)
    assert "55.60000° north, 1.80000° west, on the clocks of Europe/London." in words
    # SPA altitude root there on that day, computed with pvlib 0.16.1: 21:50:14.
    assert "The sun sets at 21:50 on Saturday 12 June 2027." in words
    assert pressed(response) == []


def test_the_day_is_the_one_on_which_the_couple_are_there(photographer, wedding, church):
    sunday = wedding.days.create(key="sun", date=date(2027, 6, 13))
    Moment.objects.create(
        wedding=wedding, kind="meal", at=time(12), place=church, key="m", day=sunday
    )
    put(church, 51.4778, -0.0015)
    words = said(photographer.get(MAP))
    assert "on Sunday 13 June 2027" in words
    assert "on Saturday 12 June 2027" not in words


@pytest.mark.parametrize(
    ("spot", "zone", "day", "words"),
    [
        # By SPA (pvlib 0.16.1) the sun's centre stays between 11.4° and 34.9° that day at
        # Longyearbyen, and between -34.1° and -10.5° in December.
        ((78.22, 15.65), "Arctic/Longyearbyen", date(2027, 6, 12), "does not set on Saturday"),
        ((78.22, 15.65), "Arctic/Longyearbyen", date(2027, 12, 4), "does not rise on Saturday"),
        # SPA altitude root at Reykjavik, computed with pvlib 0.16.1: 00:03:51 after midnight.
        (
            (64.15, -21.94),
            "Atlantic/Reykjavik",
            date(2026, 6, 20),
            "sets at 00:04 on Sunday 21 June 2026",
        ),
        ((51.5, -0.1), "Europe/London", date(1899, 6, 12), "No sunset is known for the year 1899"),
        ((51.5, -0.1), "Europe/London", date(2200, 6, 12), "No sunset is known for the year 2200"),
    ],
)
def test_an_evening_without_an_ordinary_sunset_says_so(
    photographer, wedding, church, spot, zone, day, words
):
    wedding.zone = zone
    wedding.save()
    wedding.days.update(date=day)
    put(church, *spot)
    assert words in said(photographer.get(MAP))


def test_without_a_date_there_is_no_sunset_and_no_fault(photographer, wedding, church):
    wedding.days.all().delete()
    put(church, 51.4778, -0.0015)
    words = said(photographer.get(MAP))
    assert "51.47780° north" in words
    assert "sets at" not in words


@pytest.mark.parametrize(
    ("spot", "words"),
    [
        ((40, -30), "open sea"),
        ((0, 0), "open sea"),
        ((90, 0), "This is a pole"),
        ((-90, 0), "This is a pole"),
    ],
)
def test_the_open_sea_and_the_poles_are_one_clear_line(photographer, church, spot, words):
    put(church, *spot)
    assert said(photographer.get(MAP)).count(words) == 1


def test_a_spot_in_another_zone_is_told_and_nothing_changes_by_itself(
    photographer, wedding, church
):
    put(church, 48.8584, 2.2945)
    response = photographer.get(MAP)
    assert "St Æbbe go by Europe/Paris; this wedding is planned by Europe/London" in said(response)
    assert pressed(response) == ["zone:Europe/Paris"]
    photographer.post(MAP, fields(photographer, MAP) | {"do": "save"})
    wedding.refresh_from_db()
    assert wedding.zone == "Europe/London"


def test_one_button_takes_the_zone_keeps_the_page_and_the_visits_clock_time(
    photographer, wedding, church
):
    Decisions.objects.update(visit_at=datetime(2027, 6, 2, 18, 30, tzinfo=UTC))  # 19:30 in London
    page = fields(photographer, MAP) | {"church-where": "48.8584, 2.2945"}
    assert photographer.post(MAP, page | {"do": "zone:Europe/Paris"}).status_code == 302
    wedding.refresh_from_db()
    assert wedding.zone == "Europe/Paris"
    assert church.spot.latitude == 48.8584
    assert Decisions.objects.get().visit_at == datetime(2027, 6, 2, 17, 30, tzinfo=UTC)
    response = photographer.get(MAP)
    assert "The wedding now goes by Europe/Paris" in said(response)
    assert pressed(response) == []


def test_a_page_with_a_fault_takes_no_zone_and_keeps_what_was_typed(photographer, wedding, church):
    page = fields(photographer, MAP) | {"church-where": "the old mill", "do": "zone:Europe/Paris"}
    response = photographer.post(MAP, page)
    assert Page(response).fields["church-where"] == ["the old mill"]
    wedding.refresh_from_db()
    assert wedding.zone == "Europe/London"


@pytest.mark.parametrize("zone", ["Mars/Base", "../etc/passwd", "x" * 5000, "<b>"])
def test_a_zone_that_does_not_exist_is_one_clear_line(photographer, wedding, church, zone):
    response = photographer.post(MAP, fields(photographer, MAP) | {"do": f"zone:{zone}"})
    assert response.status_code == 200
    assert escape(f"There is no time zone “{zone[:64]}”.") in response.content.decode()
    wedding.refresh_from_db()
    assert wedding.zone == "Europe/London"


def test_two_names_of_one_zone_are_no_news(photographer, wedding, church):
    wedding.zone = "Asia/Calcutta"  # a link to Asia/Kolkata in the tz database's `backward` file
    wedding.save()
    put(church, 19.07, 72.87)
    assert pressed(photographer.get(MAP)) == []


def test_a_zone_that_tells_the_same_time_on_the_day_is_told_so(photographer, wedding, church):
    wedding.zone = "Europe/Berlin"
    wedding.save()
    put(church, 48.8584, 2.2945)
    assert "On the day both tell the same time." in said(photographer.get(MAP))


SLIPS = [
    ("Europe/London", "-0.12, 51.5", "51.5, -0.12"),  # swapped, on the open sea
    ("Europe/Moscow", "37.62, 55.75", "55.75, 37.62"),  # swapped, on land in Iran
    ("Asia/Kathmandu", "85.32, 27.7", "27.7, 85.32"),
    ("America/Los_Angeles", "34.05, 118.24", "34.05, -118.24"),  # a minus lost
    ("Europe/London", "2.2945, 48.8584", "48.8584, 2.2945"),  # at sea; in France the other way
]


@pytest.mark.parametrize(("zone", "typed", "meant"), SLIPS)
def test_a_swapped_pair_or_a_lost_minus_is_asked_about_and_mended_by_one_button(
    photographer, wedding, church, zone, typed, meant
):
    wedding.zone = zone
    wedding.save()
    photographer.post(MAP, fields(photographer, MAP) | {"church-where": typed})
    response = photographer.get(MAP)
    assert Page(response).fields["church-where"] == [typed]  # asked, not changed
    assert pressed(response) == [f"put:church:{meant}"]
    page = Page(response).fields | {"do": f"put:church:{meant}"}
    assert photographer.post(MAP, page).status_code == 302
    assert fields(photographer, MAP)["church-where"] == [meant]


@pytest.mark.parametrize(
    ("zone", "spot"),
    [
        ("Europe/London", (51.5, -0.12)),
        ("Asia/Shanghai", (39.47, 75.99)),
        ("Europe/Madrid", (42.24, -8.72)),
        ("Pacific/Kiritimati", (1.87, -157.43)),
        ("Europe/London", (40.42, -3.7)),  # abroad, and the zone not chosen yet
    ],
)
def test_a_pair_that_is_right_is_not_doubted(photographer, wedding, church, zone, spot):
    wedding.zone = zone
    wedding.save()
    put(church, *spot)
    response = photographer.get(MAP)
    assert not [offer for offer in pressed(response) if offer.startswith("put:")]
    assert "open sea" not in said(response)


def test_a_button_for_a_place_that_is_gone_changes_nothing(photographer, church):
    put(church, 51.5, -0.12)
    page = fields(photographer, MAP) | {"do": "put:barn:1, 2"}
    assert photographer.post(MAP, page).status_code == 302
    assert PlaceSpot.objects.get().latitude == 51.5


def test_a_place_far_from_the_others_is_asked_about(photographer, wedding, church):
    barn = Place.objects.create(wedding=wedding, key="barn", name="Barn", position=1)
    inn = Place.objects.create(wedding=wedding, key="inn", name="Inn", position=2)
    put(church, 51.5, -0.12)
    put(barn, 52.5, -0.12)  # 111 km: a degree of latitude
    assert "is that meant?" not in said(photographer.get(MAP))
    put(inn, 55.95, -3.19)
    words = said(photographer.get(MAP))
    assert words.count("is that meant?") == 1  # of the inn alone: the others have each other
    assert "km from Barn: is that meant?" in words


def test_a_name_from_the_right_does_not_turn_a_sentence_round(photographer, wedding, church):
    Place.objects.create(wedding=wedding, key="gan", name="הגן", position=1)
    response = photographer.post(MAP, fields(photographer, MAP) | {"gan-where": "nowhere"})
    assert "\u2068הגן\u2069: There are no coordinates" in said(response)


def test_what_is_said_back_is_about_what_was_typed(photographer, wedding, church):
    put(church, 51.5, -0.12)
    Place.objects.create(wedding=wedding, key="barn", name="Barn", position=1)
    page = fields(photographer, MAP) | {"church-where": "52.5, -0.12", "barn-where": "?"}
    words = said(photographer.post(MAP, page))
    assert "52.50000° north" in words
    assert "51.50000° north" not in words
