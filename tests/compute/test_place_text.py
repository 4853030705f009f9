"""Every shape of coordinates people paste, and the refusals."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from planning.compute.place_text import far_from_zone, pair_text, parse_place
from planning.compute.values import Spot

from .light.evidence import entries

GREENWICH = Spot(51.4778, -0.0015)


@pytest.mark.parametrize(
    "text",
    [
        "51.4778, -0.0015",
        "51.4778,-0.0015",
        "51.4778 -0.0015",
        "(51.4778; −0.0015)",
        "51.4778° -0.0015°",
        "51,4778, -0,0015",
        "51,4778; -0,0015",
        "51,4778 -0,0015",
        "lat: 51.4778 lng: -0.0015",
        "latitude = 51.4778, longitude = -0.0015",
        "geo:51.4778,-0.0015",
        "geo:51.4778,-0.0015,46;u=10",
        "Meet here: geo:51.4778,-0.0015?z=12.",
        "https://map.example/place/@51.4778,-0.0015,17z/x",
        "https://map.example/?q=51.4778%2C-0.0015&z=3",
        "The Old Barn, 5 Mill Lane, 51.4778, -0.0015, ring twice",
        "51°28'40.08\"N 0°0'5.4\"W",
        "51° 28' 40,08″ N, 0° 0′ 5,4″ W",
        "N 51 28 40.08 W 0 0 5.4",
        "N51°28.668' W0°0.09'",
        "51:28:40.08 N 0:0:5.4 W",
        "51d28m40.08s N, 0d0m5.4s W",
        "0°0'5.4\"W 51°28'40.08\"N",
        "51.4778 N, 0.0015 W",
        "51.4778°n 0.0015°w",
        "The Old Barn 51.4778° N 0.0015° W by the pond",
    ],
)
def test_every_common_shape_names_the_same_spot(text):
    spot = parse_place(text)
    assert spot.latitude == pytest.approx(GREENWICH.latitude, abs=1e-9)
    assert spot.longitude == pytest.approx(GREENWICH.longitude, abs=1e-9)


def test_southern_and_eastern_hemispheres_keep_their_signs():
    for text in ("-33.85, 151.2", "33°51'S 151°12'E", "E 151 12 S 33 51"):
        spot = parse_place(text)
        assert (round(spot.latitude, 9), round(spot.longitude, 9)) == (-33.85, 151.2), text


@pytest.mark.parametrize("entry", entries("geo_uri"))
def test_geo_addresses_of_the_standard_are_read(entry):
    # RFC 5870, sections 6 and 9; at a pole any longitude is the same place.
    latitude, longitude, *_ = entry["outputs"]
    spot = parse_place(entry["inputs"]["uri"])
    assert spot.latitude == latitude
    assert longitude in (spot.longitude, "any (pole)")


def test_a_full_plus_code_in_a_text_is_read():
    # Centre as printed in the Open Location Code specification, section Short Codes.
    for text in ("8FVC9G8F+6W", "meet at 8fvc9g8f+6w, by the gate", "x.example/8FVC9G8F%2B6W"):
        spot = parse_place(text)
        assert spot.latitude == pytest.approx(47.365562, abs=1e-6)
        assert spot.longitude == pytest.approx(8.524813, abs=1e-6)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("", "no coordinates"),
        ("The Old Barn", "no coordinates"),
        ("12 34", "no coordinates"),
        ("12 S Main St, 34 W Oak St", "no coordinates"),
        ("-51.5 N 0.1 W", "no coordinates"),
        ("51°N", "no coordinates"),
        ("nan, nan", "no coordinates"),
        ("999, 0", "Latitude 999"),
        ("10, 999", "Longitude 999"),
        ("134, 5", "Latitude comes first"),
        ("geo:94,0", "Latitude"),
        ("geo:1,2;crs=nad27", "WGS 84"),
        ("geo:here", "geo: address"),
        ("51.5°28'N 0°5'W", "fraction"),
        ("51°61'N 0°5'W", "less than 60"),
        ("95°0'N 0°5'W", "Latitude 95"),
        ("51.4778,-0.0015 or 48.8584,2.2945", "more than one place"),
        ("51°30'N 0°7'W to 48°51'N 2°21'E", "more than one place"),
        ("8FVC9G8F+6W or 8FVC9G8F+6X", "more than one place"),
        ("9G8F+6W Oldtown", "short Plus Code"),
        ("8FWC0000+", "covers kilometres"),
        ("x" * 5000, "longer than"),
    ],
)
def test_what_names_no_one_place_is_refused_in_one_line(text, words):
    with pytest.raises(ValueError, match=words) as caught:
        parse_place(text)
    assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    "spot",
    [GREENWICH, Spot(90, -180), Spot(0.0, 1e-07), Spot(-1e-06, 0.1 + 0.2), Spot(-33.85, 151.2)],
)
def test_a_stored_spot_is_written_so_that_it_reads_back_exactly(spot):
    assert parse_place(pair_text(spot)) == spot


PLACES = [
    (51.5, -0.12, "Europe/London"),
    (48.85, 2.35, "Europe/Paris"),
    (42.24, -8.72, "Europe/Madrid"),
    (39.47, 75.99, "Asia/Shanghai"),
    (64.15, -21.94, "Atlantic/Reykjavik"),
    (-53.16, -70.91, "America/Punta_Arenas"),
    (-54.8, -68.3, "America/Argentina/Ushuaia"),
    (1.87, -157.43, "Pacific/Kiritimati"),
    (-43.95, -176.56, "Pacific/Chatham"),
    (61.2, -149.9, "America/Anchorage"),
    (27.7, 85.32, "Asia/Kathmandu"),
]


def usual_offset(zone):
    both = (datetime(2026, month, 1, tzinfo=UTC).astimezone(ZoneInfo(zone)) for month in (1, 7))
    return min(at.utcoffset() for at in both)


@pytest.mark.parametrize(("latitude", "longitude", "zone"), PLACES)
def test_real_places_sit_well_in_their_zones(latitude, longitude, zone):
    assert not far_from_zone(Spot(latitude, longitude), usual_offset(zone))


def test_a_swapped_pair_or_a_lost_sign_sits_badly():
    assert far_from_zone(Spot(-0.12, 51.5), timedelta(0))
    assert far_from_zone(Spot(2.35, 48.85), timedelta(hours=1))
    assert far_from_zone(Spot(85.32, 27.7), timedelta(hours=5, minutes=45))
    assert far_from_zone(Spot(34.05, 118.24), timedelta(hours=-8))


@pytest.mark.parametrize(
    "text",
    [
        "https://map.example/#map=17/51.47780/-0.00150",
        "https://map.example/?mlat=51.47780&mlon=-0.00150#map=5",
        "https://map.example/?lat=51.4778&lon=-0.0015&z=3",
        "https://map.example/maps?cp=51.4778~-0.0015",
        "https://map.example/@51.4700,-0.0100,17z/data=!3d51.4778!4d-0.0015",
        "https://map.example/?ll=51.4778,-0.0015",
        "geo:0,0?q=51.4778,-0.0015(Gate)",
        "lon: -0.0015 lat: 51.4778",
        "Longitude -0.0015, Latitude 51.4778",
    ],
)
def test_addresses_and_labels_that_hold_a_pair_are_read(text):
    assert parse_place(text) == Spot(51.4778, -0.0015)


def test_a_short_pair_counts_where_the_address_says_it_is_one():
    assert parse_place("https://map.example/?ll=51.47,-0.0015") == Spot(51.47, -0.0015)


@pytest.mark.parametrize(
    "text", ["lat 51.4778 lon -0.0015 lat 48.1 lon 11.5", "1.2345/2.3456 and 3.4567/4.5678"]
)
def test_two_pairs_are_refused(text):
    with pytest.raises(ValueError, match="more than one place"):
        parse_place(text)
