"""Dates and lengths in the five languages; the outside judge is Unicode's CLDR (by Babel)."""

from datetime import date, datetime, timedelta

import pytest
from babel import Locale
from babel.dates import format_date
from django.conf import settings
from django.utils.translation import ngettext, override

from studio.words import day_and_month, day_and_time, how_long, long_date

LANGUAGES = [code for code, _name in settings.LANGUAGES]
YEAR = [date(2027, 1, 1) + timedelta(days=n) for n in range(365)]
CLDR = {"en-gb": "en_IE"}  # the day's name without a comma, as British papers print it too
each_language = pytest.mark.parametrize("language", LANGUAGES)


def first_as_said(day, text, language):
    """CLDR's French has "1 mai"; French is written and said "1er mai" (from memory)."""
    return text.replace(" 1 ", " 1er ") if language == "fr" and day.day == 1 else text


@each_language
def test_every_date_is_written_as_cldr_writes_it(language):
    for day in YEAR:
        cldr = format_date(day, "full", locale=CLDR.get(language, language))
        with override(language):
            assert long_date(day) == first_as_said(day, cldr, language)


@each_language
def test_a_day_without_its_year_is_the_date_up_to_it(language):
    with override(language):
        for day in YEAR:
            assert long_date(day).startswith(f"{day_and_month(day)} ")
            assert "2027" not in day_and_month(day)


def test_a_time_stands_behind_the_day_on_a_clock_of_24_hours():
    at = datetime(2027, 5, 1, 14, 5)
    for language, said in {
        "en-gb": "Saturday 1 May, 14:05",
        "de": "Samstag, 1. Mai, 14:05 Uhr",
        "fr": "samedi 1er mai, 14:05",
        "es": "sábado, 1 de mayo, 14:05",
        "pl": "sobota, 1 maja, 14:05",
    }.items():
        with override(language):
            assert day_and_time(at) == said


@each_language
def test_plurals_follow_cldr(language):
    """Numbers with one form in CLDR have one form with us, and numbers with two have two."""
    with override(language):
        forms = {n: how_long(n, shown="n") for n in range(1, 300)}
    plural = Locale.parse(language, sep="-").plural_form
    of_category = {plural(n): form for n, form in forms.items()}
    assert {n: of_category[plural(n)] for n in forms} == forms
    assert len(set(of_category.values())) == len(of_category)


def test_polish_has_its_three_plurals():
    with override("pl"):
        said = [how_long(n) for n in (1, 2, 4, 5, 12, 14, 21, 22, 25, 112, 122)]
    assert said == [
        "1 minuta", "2 minuty", "4 minuty", "5 minut", "12 minut", "14 minut", "21 minut",
        "22 minuty", "25 minut", "112 minut", "122 minuty",
    ]  # fmt: skip


def test_fractions_of_a_minute_are_rounded_up():
    assert how_long(24.1) == "25 minutes"
    assert ngettext("%(count)s minute", "%(count)s minutes", 1) == "%(count)s minute"
