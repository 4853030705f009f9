"""Typed dates and times in the five languages; the outside judge is Unicode's CLDR (by Babel)."""

from datetime import date, time, timedelta

import pytest
from babel import Locale
from babel.dates import format_date, format_time
from django.conf import settings
from django.utils.translation import override
from hypothesis import given
from hypothesis import strategies as st

from intake.date_words import read_date, read_time
from studio.words import long_date

YEAR = [date(2027, 1, 1) + timedelta(days=n) for n in range(365)]
# Countries whose people write the day before the month; figures of the others are not ours.
COUNTRIES = [
    "en_GB", "en_AU", "en_IE", "de", "de_AT", "de_CH", "fr", "fr_BE", "fr_CA", "fr_CH",
    "es", "es_AR", "es_CO", "es_MX", "pl",
]  # fmt: skip


@pytest.mark.parametrize("style", ["full", "long", "medium", "short"])
@pytest.mark.parametrize("country", COUNTRIES)
def test_every_day_is_read_as_cldr_writes_it_there(country, style):
    assert [read_date(format_date(day, style, locale=country)) for day in YEAR] == YEAR


@pytest.mark.parametrize("language", [code for code, _name in settings.LANGUAGES])
def test_every_day_is_read_as_we_say_it_back(language):
    with override(language):
        said = [long_date(day) for day in YEAR]
    assert [read_date(text) for text in said] == YEAR


@pytest.mark.parametrize("width", ["wide", "abbreviated", "short"])
@pytest.mark.parametrize("country", COUNTRIES)
def test_a_weekday_in_any_length_is_passed_over(country, width):
    for names in Locale.parse(country).days.values():
        for name in names[width].values():
            assert read_date(f"{name}, 12.6.2027") == date(2027, 6, 12)


@pytest.mark.parametrize(
    "text",
    ["1. Mai 2027", "Sa., den 1. Mai 2027", "am Samstag, dem 1.5.27", "1er mai 2027",
     "le samedi 1er mai 2027", "1 mai 2027", "1º de mayo de 2027", "el sábado 1 de mayo del 2027",
     "sáb. 1 may 2027", "1 maja 2027 r.", "w sobotę 1 maja 2027", "sob. 01.05.2027 r.",
     "1 V 2027", "dnia 1.05.2027", "2027-05-01", "1 MAJA 2027", "May 1, 2027", "1st May ’27"],
)  # fmt: skip
def test_a_date_is_read_as_couples_write_it(text):
    assert read_date(text) == date(2027, 5, 1)


@pytest.mark.parametrize(
    ("text", "month"),
    [("5. Jänner 2027", 1), ("5 août 2027", 8), ("5 aout 2027", 8), ("5. Maerz 2027", 3),
     ("5 sept. 2027", 9), ("mar. 5 oct. 2027", 10), ("martes 5 mar 2027", 3), ("5 mar 2027", 3),
     ("5 października 2027", 10), ("5 pazdziernika 2027", 10), ("5 de setiembre de 2027", 9)],
)  # fmt: skip
def test_months_are_known_in_other_spellings_and_beside_weekdays_like_them(text, month):
    assert read_date(text) == date(2027, month, 5)


@pytest.mark.parametrize(
    "text",
    ["30. Februar 2027", "31 czerwca 2027", "12 juin juillet 2027", "12 June", "June 2027", "2027",
     "12/6/2027/1", "12 June 12 2027", "12 smarch 2027", "12*6*2027", "maja", "", "1 2 3", "12 6 7",
     "12 June 027", "we do not know yet", "13.13.2027", "0.6.2027"],
)  # fmt: skip
def test_what_is_no_date_is_read_as_none(text):
    assert read_date(text) is None


@pytest.mark.parametrize("country", COUNTRIES)
def test_every_minute_is_read_as_cldr_writes_it_there(country):
    minutes = [time(hour, minute) for hour in range(24) for minute in (0, 5, 30, 59)]
    said = [format_time(at, "short", locale=country) for at in minutes]
    assert [read_time(text) for text in said] == minutes


@pytest.mark.parametrize(
    "text",
    ["14h30", "14 h 30", "à 14h30", "14:30 Uhr", "14.30 Uhr", "14 Uhr 30", "um 14.30 Uhr",
     "a las 14:30", "14:30 h", "14.30 hs", "o 14:30", "godz. 14.30", "o godz. 14:30", "1430",
     "2.30 pm", "2:30 P.M.", "14:30:00", "at 2:30pm"],
)  # fmt: skip
def test_a_time_is_read_as_couples_write_it(text):
    assert read_time(text) == time(14, 30)


@pytest.mark.parametrize(
    ("text", "hour"),
    [("midi", 12), ("à minuit", 0), ("mediodía", 12), ("w południe", 12), ("o północy", 0),
     ("Mittag", 12), ("Mitternacht", 0), ("14 Uhr", 14), ("14h", 14), ("2 p. m.", 14), ("12 am", 0),
     ("12pm", 12), ("las 7", 7), ("7 de la tarde", None), ("14:60", None), ("24:00", None),
     ("14:30 pm", None), ("half past two", None), ("", None)],
)  # fmt: skip
def test_a_whole_hour_is_read_and_what_is_unsure_is_not(text, hour):
    assert read_time(text) == (None if hour is None else time(hour))


@given(st.text(max_size=40))
def test_any_text_is_read_or_not_but_nothing_breaks(text):
    assert read_date(text) is None or isinstance(read_date(text), date)
    assert read_time(text) is None or isinstance(read_time(text), time)
