"""Couples read everything in their wedding's language, or the one they choose in their browser."""

import re
from datetime import date

import pytest
from django.conf import settings as real_settings
from django.test import Client
from django.utils import translation

from intake.languages import CHOICE, in_language_of, language_of
from intake.links import link_path
from intake.models import Day, Wedding
from tests.page import Page, fields, said

LIST = "/q/thora-lukasz/"
STEP = f"{LIST}step/two-of-you"
TITLES = {
    "en-gb": "The two of you",
    "de": "Ihr beide",
    "fr": "Vous deux",
    "es": "Ustedes dos",
    "pl": "O Was",
}
each_language = pytest.mark.parametrize("language", TITLES)
WRONG = "/q/nobody-here/"


@pytest.fixture
def german(wedding):
    Wedding.objects.filter(pk=wedding.pk).update(language="de")
    wedding.refresh_from_db()
    return wedding


def opening(response):
    return re.search(r"<html[^>]*>", response.content.decode())[0]


@each_language
def test_the_couples_pages_are_in_the_language_of_the_wedding(wedding, couple, language):
    Wedding.objects.update(language=language)
    response = couple.get(LIST, headers={"accept-language": "fi, pl;q=0.9, fr;q=0.8"})
    assert TITLES[language] in said(response)
    assert opening(response) == f'<html lang="{language}" dir="ltr">'
    assert response["Content-Language"] == language


@each_language
def test_a_kept_date_says_its_weekday_in_the_weddings_language(wedding, couple, language):
    Wedding.objects.update(language=language)
    url = f"{LIST}step/day"
    typed = {
        "en-gb": ("1 May 2027", "Saturday 1 May 2027"),
        "de": ("1. Mai 2027", "Samstag, 1. Mai 2027"),
        "fr": ("1er mai 2027", "samedi 1er mai 2027"),
        "es": ("1 de mayo de 2027", "sábado, 1 de mayo de 2027"),
        "pl": ("1 maja 2027 r.", "sobota, 1 maja 2027"),
    }
    given, back = typed[language]
    assert couple.post(url, fields(couple, url) | {"days-0-date": given}).status_code == 302
    assert Day.objects.get().date == date(2027, 5, 1)
    assert fields(couple, url)["days-0-date"] == [back]
    assert couple.post(url, fields(couple, url)).status_code == 302  # and it is read again
    assert Day.objects.get().date == date(2027, 5, 1)


def test_the_photographers_pages_stay_as_they_are(german, photographer):
    german.partners.update(word="Braut")
    Wedding.objects.update(matters="Die Blicke, nicht die Deko.")
    german.musthaves.create(key="m", text="Omas Uhr", kind="ceremony")
    response = photographer.get("/w/thora-lukasz/answers", headers={"accept-language": "de"})
    assert opening(response) == '<html lang="en-gb" dir="ltr">'
    words = said(response)
    assert "The two of you" in words
    assert "Saturday 12 June 2027" in words
    assert "Die Blicke, nicht die Deko." in words  # as it was typed
    assert "Omas Uhr" in words
    assert "Trauung" not in words
    for page in ("/", "/studio", "/w/thora-lukasz/booking", "/nothing-here"):
        words = said(photographer.get(page, headers={"accept-language": "de"}))
        assert not re.search(r"\b(Hier|Speichern|Trauung|Datum)\b", words), page


def test_a_language_that_is_not_offered_any_more_gives_way_to_the_studios(wedding, couple):
    Wedding.objects.update(language="tlh")
    assert "The two of you" in said(couple.get(LIST))
    assert language_of(Wedding.objects.get()) == real_settings.LANGUAGE_CODE


def test_couples_choose_their_own_language_in_their_browser(german, couple):
    page = couple.get(LIST)
    assert [name for _code, name in real_settings.LANGUAGES] == re.findall(
        r"(English|Deutsch|Français|Español|Polski)<", page.content.decode()
    )
    response = couple.post(f"{LIST}language", {"language": "pl", "back": f"{LIST}read-through"})
    assert response["Location"] == f"{LIST}read-through"
    assert TITLES["pl"] in said(couple.get(LIST))
    german.refresh_from_db()
    assert german.language == "de"
    cookie = response.cookies[CHOICE]
    assert (cookie["path"], cookie["httponly"], cookie["samesite"]) == (LIST, True, "Lax")
    partner = Client()
    partner.get(link_path(german))
    assert TITLES["de"] in said(partner.get(LIST))


@pytest.mark.parametrize(
    "back",
    ["https://elsewhere.example/", "//elsewhere.example", "/", "/q/wanjiru-odon/", "",
     "javascript:alert(1)", f"{LIST}\r\nSet-Cookie: x=y"],
)  # fmt: skip
def test_choosing_leads_back_to_the_couples_own_pages_only(wedding, couple, back):
    response = couple.post(f"{LIST}language", {"language": "de", "back": back})
    assert response.status_code == 302
    assert response["Location"].startswith(LIST)
    assert "\n" not in response["Location"]


def test_a_language_that_is_none_changes_nothing(german, couple):
    for code in ("", "tlh", "xx" * 4000, "../../etc"):
        assert CHOICE not in couple.post(f"{LIST}language", {"language": code}).cookies
    couple.cookies[CHOICE] = "../../etc"
    assert TITLES["de"] in said(couple.get(LIST))


def test_choosing_is_no_matter_of_getting(german, couple):
    assert couple.get(f"{LIST}language?language=pl").status_code == 405
    assert TITLES["de"] in said(couple.get(LIST))


@each_language
def test_changing_the_language_of_a_step_keeps_what_is_typed(german, couple, language):
    typed = fields(couple, STEP) | {"partners-0-name": "Þóra the Younger", "wedding-matters": "X"}
    response = couple.post(f"{STEP}?from=answers", typed | {"do": f"language-{language}"})
    assert response["Location"] == f"{STEP}?from=answers"
    response = couple.get(response["Location"])
    assert opening(response).startswith(f'<html lang="{language}"')
    assert Page(response).fields["partners-0-name"] == ["Þóra the Younger"]
    assert Page(response).fields["wedding-matters"] == ["X"]
    assert german.partners.first().name == "Þóra Sigurðardóttir"


def test_a_wrong_link_is_in_the_browsers_language_and_tells_nothing_of_a_wedding(german):
    for language, words in {
        "fr, en": "Ce lien n’ouvre rien",
        "fi": "This link does not open",
    }.items():
        client = Client(headers={"accept-language": language})
        there, nowhere = client.get(LIST), client.get(WRONG)
        assert words in said(there)
        assert there.content == nowhere.content
        assert there.status_code == nowhere.status_code == 404
        assert dict(there.headers) == dict(nowhere.headers)


def test_a_form_that_is_too_old_is_refused_in_the_weddings_language(german):
    client = Client(enforce_csrf_checks=True)
    client.get(link_path(german))
    response = client.post(STEP, {"partners-0-name": "Þóra"})
    assert response.status_code == 403
    assert "Diese Seite war zu lange offen" in said(response)


def test_a_page_that_fails_says_so_in_the_weddings_language(german, couple, monkeypatch):
    couple.raise_request_exception = False
    monkeypatch.setattr("intake.views.progress", lambda wedding: 1 / 0)
    response = couple.get(LIST)
    assert response.status_code == 500
    assert "Hier ist etwas schiefgegangen" in said(response)
    assert 'lang="de"' in opening(response)


def test_an_unknown_address_is_told_in_the_browsers_language(db):
    response = Client().get("/x", headers={"accept-language": "es-AR"})
    assert "Aquí no hay nada" in said(response)
    assert "Accept-Language" in response["Vary"]


def test_nothing_of_one_page_is_left_for_the_next(german, couple):
    before = translation.get_language()
    couple.get(LIST)
    assert translation.get_language() == before


def test_what_is_made_elsewhere_can_be_written_in_their_language(german):
    day = german.days.get()
    with in_language_of(german):
        assert str(day) == "Samstag, 12. Juni 2027"
    assert str(day) == "Saturday 12 June 2027"
