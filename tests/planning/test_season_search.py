"""Finding a wedding by what is remembered of it."""

from datetime import UTC, date, datetime, timedelta

import pytest
from django.utils.translation import override
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from intake.models import Day, Partner, Place, Wedding
from planning.search_terms import is_meant, terms_of
from planning.season import PAGE, season_page
from planning.season_names import folded
from planning.season_search import LONGEST, found
from studio.words import day_and_month, long_date
from tests.page import fields, said

TODAY = date(2027, 3, 10)


def book(*names, places=(), days=()):
    wedding = Wedding.objects.create()
    for name in names:
        Partner.objects.create(wedding=wedding, name=name)
    for place in places:
        Place.objects.create(wedding=wedding, name=place)
    for day in days:
        Day.objects.create(wedding=wedding, date=day)
    return wedding


@pytest.fixture
def season(db):
    """Three weddings: one past, one of two days ahead, one without a date."""
    return {
        "past": book("Þóra Sigurðardóttir", "Łukasz Wiśniewski", days=[date(2026, 6, 12)]),
        "ahead": book(
            "Hùng Đặng", "Søren Strauß", places=["Mäkelä’s Mill"],
            days=[date(2027, 6, 12), date(2027, 7, 3)],
        ),
        "undated": book("Šárka Œuvrard", "Ödön Szőke", places=["Old Mill", "Quarry 12"]),
    }  # fmt: skip


def finds(words, season):
    by_key = {wedding.pk: name for name, wedding in season.items()}
    return [by_key[key] for key in found(words, TODAY)]


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("thora", ["past"]), ("ÞÓRA", ["past"]), ("lukasz wisniewski", ["past"]),
        ("Wiśniewski, Łukasz", ["past"]), ("Þóra & Łukasz", ["past"]), ("gurdar", ["past"]),
        ("hung dang", ["ahead"]), ("STRAUSS", ["ahead"]), ("soren", ["ahead"]),
        ("makela's", ["ahead"]), ("MÄKELÄ’S MILL", ["ahead"]), ("szoke", ["undated"]),
        ("S\u030ca\u0301rka", ["undated"]), ("oeuvrard", ["undated"]),
        ("mill", ["ahead", "undated"]),
        ("quarry 12", ["undated"]), ("thora mill", []), ("Nobody", []),
    ],
)  # fmt: skip
def test_accents_case_and_order_of_words_do_not_matter(season, words, expected):
    assert finds(words, season) == expected


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("12 June 2027", ["ahead"]), ("12 June", ["ahead", "past"]), ("June", ["ahead", "past"]),
        ("june 2026", ["past"]), ("2027", ["ahead"]), ("12.6.", ["ahead", "past"]),
        ("12/06/2027", ["ahead"]), ("2027-06-12", ["ahead"]), ("2027-06", ["ahead"]),
        ("6/2027", ["ahead"]), ("12th of June", ["ahead", "past"]), ("3rd July", ["ahead"]),
        ("Saturday 12 June 2027", ["ahead"]), ("June 12, 2027", ["ahead"]),
        ("12 czerwca 2027", ["ahead"]), ("le 12 juin", ["ahead", "past"]),
        ("12. Juni", ["ahead", "past"]),
        ("hung june", ["ahead"]), ("thora 2027", []), ("3 June", []), ("12 July", []),
        ("31.2.", []), ("Saturday", []), ("the", []), ("mill 12", ["ahead", "undated"]),
    ],
)  # fmt: skip
def test_dates_are_read_as_people_say_them(season, words, expected):
    assert finds(words, season) == expected


@pytest.mark.parametrize("day", [date(2027, month, 2 * month) for month in range(1, 13)])
def test_a_day_is_found_however_its_date_is_written(day):
    ways = [day.isoformat(), f"{day.day}.{day.month}.{day.year}"]
    parts = [f"{day.month}/{day.year}", f"{day.day}.{day.month}."]
    for language in ("en-gb", "de", "fr", "es", "pl"):
        with override(language):
            ways.append(long_date(day))
            parts.append(day_and_month(day))
    for way in ways + parts:
        assert is_meant(terms_of(way), [day]), way
    for way in ways:
        assert not is_meant(terms_of(way), [day + timedelta(days=1)]), way
        assert not is_meant(terms_of(way), [day.replace(year=2028)]), way


@settings(deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.text(max_size=30), st.text(max_size=5))
def test_a_name_is_found_by_itself_whatever_it_is(name, before):
    there = folded(f"{before} {name}")
    assert all(term.text in there for term in terms_of(name))


def test_those_ahead_come_first_and_the_latest_of_the_past_next(db):
    past = [book("Ana", days=[date(2026, 5, day)]) for day in (1, 2)]
    undated = book("Ana")
    ahead = [book("Ana", days=[date(2027, 5, day)]) for day in (2, 1)]
    keys = [wedding.pk for wedding in (ahead[1], ahead[0], undated, past[1], past[0])]
    assert found("ana", TODAY) == keys


def test_a_past_wedding_that_is_found_waits_to_be_erased(season):
    now = datetime(2027, 3, 10, 12, tzinfo=UTC)
    (entry,) = season_page(now, None, False, "thora").object_list
    assert (entry.wedding, entry.waits_for) == (
        season["past"],
        "its answers to be erased by 12 June 2027",
    )


def test_the_page_says_what_it_found_and_keeps_what_was_typed(photographer, season):
    page = photographer.get("/", {"q": "mill"})
    assert "2 weddings with “mill”, past ones included." in said(page)
    assert "Hùng & Søren" in said(page)
    assert "Þóra" not in said(page)
    assert fields(photographer, "/?q=mill")["q"] == ["mill"]
    assert "1 wedding with “thora”" in said(photographer.get("/", {"q": "thora", "past": ""}))


def test_nothing_found_says_how_to_look(photographer, season):
    words = said(photographer.get("/", {"q": "<b>Nobody</b>"}))
    assert "0 weddings with “<b>Nobody</b>”" in words
    assert "Every word must be in a partner’s name" in words


@pytest.mark.parametrize("words", ["", " ", "\0", "\x1b\t", "&, ;", "\u200e"])
def test_asking_for_nothing_shows_the_season(photographer, season, words):
    page = said(photographer.get("/", {"q": words}))
    assert "Hùng & Søren" in page
    assert "past ones included" not in page


@pytest.mark.parametrize("words", ["tho\0ra", "\x07thora\x1b", "thora\ufffe"])
def test_characters_nobody_can_type_are_left_out(photographer, season, words):
    assert "1 wedding with “thora”" in said(photographer.get("/", {"q": words}))


def test_too_long_a_search_is_refused_beside_its_box(photographer, season):
    page = photographer.get("/", {"q": "x" * 5000})
    assert f"Search with at most {LONGEST} characters, yours are 5000." in said(page)
    assert "Error:" in said(page)
    assert "Hùng & Søren" in said(page)
    assert fields(photographer, f"/?q={'x' * 5000}")["q"] == ["x" * 5000]


def test_the_next_page_goes_on_with_the_same_search(photographer, db):
    for _each in range(PAGE + 1):
        book("Ana", "Mateo")
    book("Eilidh")
    page = photographer.get("/", {"q": "ana mateo"})
    assert "Page 1 of 2" in said(page)
    assert "?q=ana+mateo&amp;page=2" in page.content.decode()
    assert "Page 2 of 2" in said(photographer.get("/?q=ana+mateo&page=2"))


def test_the_box_has_a_label_and_a_hint_that_belong_to_it(photographer, db):
    page = photographer.get("/").content.decode()
    assert '<label for="id_q">' in page
    assert 'aria-describedby="id_q_helptext"' in page
    assert 'role="search"' in page
    assert "(optional)" not in page


def test_a_second_photographers_list_has_no_search(client, django_user_model, season):
    from tests.conftest import member

    client.force_login(member(django_user_model, "SECOND", "tansy"))
    page = client.get("/", {"q": "mill"})
    assert 'name="q"' not in page.content.decode()
    assert "Hùng" not in said(page)
