"""Countries by code, against the published codes of ISO 3166-1."""

import pytest
from django.core.exceptions import ValidationError

from planning.countries import country_name, country_of, names, read_countries, spoken


def test_there_are_as_many_countries_as_the_standard_has():
    """ISO 3166-1 lists 249 (https://www.iso.org/iso-3166-country-codes.html)."""
    assert len(names()) == 249


@pytest.mark.parametrize(
    ("zone", "code"),
    [
        ("Europe/London", "GB"),
        ("Pacific/Auckland", "NZ"),
        ("Europe/Oslo", "NO"),
        ("America/New_York", "US"),
        ("Asia/Kolkata", "IN"),
        ("UTC", ""),
        ("Europe/Belfast", ""),
        ("nowhere", ""),
    ],
)
def test_a_time_zone_is_of_a_country_where_the_table_says_so(zone, code):
    assert country_of(zone) == code


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("", []),
        (" , ;\n", []),
        ("NO", ["NO"]),
        ("no", ["NO"]),
        ("Norway, norway; NO", ["NO"]),
        ("UK\nUnited  Kingdom\nScotland", ["GB"]),
        ("Britain (UK), Samoa", ["GB", "WS"]),
        ("Cote d'Ivoire, Côte d’Ivoire, Åland Islands", ["CI", "AX"]),
        ("american samoa, Türkiye", ["AS", "TR"]),
    ],
)
def test_countries_are_read_as_people_write_them(text, codes):
    assert read_countries(text) == codes


def test_what_is_written_back_reads_the_same():
    assert read_countries(spoken(names())) == list(names())


@pytest.mark.parametrize("text", ["Norwey", "XX", "GB, Atlantis", "<b>", "Korea", "Virgin Islands"])
def test_a_country_that_is_none_is_named(text):
    with pytest.raises(ValidationError, match="two letters"):
        read_countries(text)


def test_a_code_that_the_table_has_not_is_said_as_it_is():
    assert country_name("XX") == "XX"
