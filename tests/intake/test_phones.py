"""Phone numbers in any shape. Numbers are of Ofcom's ranges for drama, or of no country at all."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.phones import country_of, international, said_back, to_dial

LONDON = "Europe/London"


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("07700 900111", "+44 7700 900111"),
        ("07700900111", "+44 7700 900111"),
        ("(07700) 900-111", "+44 7700 900111"),
        ("07700.900.111", "+44 7700 900111"),
        ("+44 (0)7700 900 111", "+44 7700 900111"),
        ("00 44 7700 900111", "+44 7700 900111"),
        ("٠٧٧٠٠ ٩٠٠١١١", "+44 7700 900111"),
        ("01632 960101 ext 12", "+44 1632 960101 x12"),
        ("07700 900111 (evenings)", "+44 7700 900111"),
        ("mobile 07700 900111, at home 01632 960101", "+44 7700 900111 / +44 1632 960101"),
    ],
)
def test_any_shape_is_read(typed, read):
    assert international(typed, LONDON) == read


@pytest.mark.parametrize(
    "typed", ["", "ring the bar", "12", "0", "999", "+420 (0) 123-456", "1" * 40, "0" * 5000, "+"]
)
def test_what_is_no_number_is_none(typed):
    assert international(typed, LONDON) == ""


def test_a_number_without_its_country_is_of_the_country_of_the_wedding():
    """01 70 18 00 00 ff. are kept for fiction by the French regulator (Arcep, from memory)."""
    assert international("01 70 18 01 23", "Europe/Paris").startswith("+33 ")
    assert international("+44 7700 900111", "Europe/Paris") == "+44 7700 900111"
    assert international("+44 7700 900111", "UTC") == "+44 7700 900111"
    assert international("07700 900111", "UTC") == ""


def test_a_number_becomes_an_address_that_a_phone_can_dial():
    """RFC 3966, section 6: `tel:+1-201-555-0123`, and an extension as `;ext=`."""
    assert to_dial("(201) 555-0123", "America/New_York") == [
        ("(201) 555-0123", "tel:+1-201-555-0123")
    ]
    assert to_dial("01632 960101 ext 12", LONDON)[0][1] == "tel:+44-1632-960101;ext=12"


def test_of_several_numbers_each_is_dialled_by_itself():
    assert to_dial("mobile 07700 900111, at home 01632 960101", LONDON) == [
        ("+44 7700 900111", "tel:+44-7700-900111"),
        ("+44 1632 960101", "tel:+44-1632-960101"),
    ]


def test_what_is_no_number_is_shown_and_not_dialled():
    assert to_dial("ring the bar", LONDON) == [("ring the bar", "")]
    assert to_dial("", LONDON) == []


def test_it_is_said_back_only_where_that_says_more():
    assert said_back("07700 900111", LONDON) == "+44 7700 900111"
    assert said_back("+447700900111", LONDON) == ""
    assert said_back("ring the bar", LONDON) == ""


@pytest.mark.parametrize(
    ("zone", "country"),
    [("Europe/London", "GB"), ("Pacific/Auckland", "NZ"), ("UTC", None), ("No/where", None)],
)
def test_the_country_is_that_of_the_tz_databases_own_table(zone, country):
    """zone.tab of the tz database: `GB +513030-0000731 Europe/London`, `NZ ... Auckland`."""
    assert country_of(zone) == country


@given(st.text(max_size=60))
def test_any_text_is_read_or_not_and_never_fails(text):
    for zone in (LONDON, "UTC"):
        assert isinstance(said_back(text, zone), str)
