"""Every page of a couple in a language of accents: what has no accent, nobody has translated."""

import json
import re
from datetime import UTC, date, datetime
from html.parser import HTMLParser

import pytest
from django.http import HttpResponse
from django.test import Client
from django.urls import reverse
from django.utils.dates import MONTHS

from intake.languages import CHOICE
from intake.links import link_path
from intake.models import Contact, Day, Group, Moment, MustHave, Place, StepState, Wedding
from intake.steps import STEPS
from planning.paper.sheets import BY_KEY
from planning.paper.subject import subject_of
from planning.pdf import paper_html
from studio.models import Studio
from tests.page import Page, fields
from tests.planning.agreed import shared
from tests.pseudo import LONG, NAMES, write_locale

LIST = "/q/thora-lukasz/"
STEP = f"{LIST}step/two-of-you"
# Typed, or in every page's own words; months have Django's own translations.
NOT_OURS = {"QQ", "QQQ", "STUDIO", "English", "Deutsch", "Polski", "Long", "Mirrored"}
NOT_OURS |= {"name", "told", "time"} | {str(month) for month in MONTHS.values()}
JS_WORDS = {"data-said", "data-alone", "data-refused", "data-room", "data-groups", "data-minutes"}


class Texts(HTMLParser):
    """What people read or hear of a page: its text, and the attributes that hold words."""

    WORDY = {"aria-label", "title", "alt", "placeholder"} | JS_WORDS

    def __init__(self, html):
        super().__init__()
        self.found, self.open = [], []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self.open.append(tag)
        self.found += [v for k, v in attrs if v and k in self.WORDY]

    def handle_endtag(self, tag):
        while self.open and self.open.pop() != tag:
            pass

    def handle_data(self, data):
        if not set(self.open) & {"script", "style", "textarea"}:
            self.found.append(data)


@pytest.fixture
def accented(tmp_path, settings):
    write_locale(tmp_path)
    settings.LOCALE_PATHS = [tmp_path]
    settings.LANGUAGES = [*settings.LANGUAGES, *NAMES]


@pytest.fixture
def told(wedding, accented):
    """A wedding with something in every list, all of it in capitals or figures."""
    Studio.objects.create(name="STUDIO")
    Wedding.objects.update(language=LONG, sent_at=datetime(2027, 3, 1, tzinfo=UTC))
    wedding.partners.update(name="Q", called="Q", phone="07700 900111")
    barn = Place.objects.create(wedding=wedding, key="barn", name="Q", uses=["meal"])
    day = wedding.days.get()
    Day.objects.create(wedding=wedding, date=date(2027, 6, 13))
    for number, kind in enumerate(("ceremony", "meal")):
        Moment.objects.create(
            wedding=wedding, key=f"m{number}", kind=kind, day=day, place=barn, unknown=bool(number)
        )
    Contact.objects.create(wedding=wedding, key="c", name="Q", listed_as="helper", side="first")
    Contact.objects.create(wedding=wedding, key="s", name="Q", listed_as="supplier", role="Q")
    for number in range(10):
        Group.objects.create(wedding=wedding, key=f"g{number}", title="Q", people="Q", wish="nice")
    MustHave.objects.create(wedding=wedding, key="h", text="Q", kind="cake")
    wedding.carenotes.create(key="n", person="Q", kind="apart", other="Q")
    return wedding


def english_in(response):
    words = []
    for text in Texts(response.content.decode()).found:
        if text.startswith('{"'):  # words for each kind of plural
            text = " ".join(json.loads(text).values())
        text = re.sub(r"[\w.]+@[\w.]+|\{\w+\}|\b[\da-f]{4}\b", "", text)  # the last: a mark
        words += [word for word in re.findall(r"[^\W\d_]{2,}", text) if word.isascii()]
    return sorted(set(words) - NOT_OURS)


def test_the_test_itself_sees_english(couple):
    assert {"The", "two", "of", "you"} <= set(english_in(couple.get(LIST)))


def couple_of(wedding):
    client = Client()
    client.get(link_path(wedding))
    return client


@pytest.mark.parametrize("page", ["", "read-through", "step/groups/paste"])
def test_a_page_holds_no_word_that_is_not_translated(told, page):
    assert english_in(couple_of(told).get(f"{LIST}{page}")) == []


@pytest.mark.parametrize("slug", [step.slug for step in STEPS])
def test_a_step_holds_no_word_that_is_not_translated_kept_wrong_or_begun(told, slug):
    client, url = couple_of(told), f"{LIST}step/{slug}"
    assert english_in(client.get(url)) == []
    full = fields(client, url)
    wrong = full | {name: "" for name in full if not name.endswith(("-key", "_FORMS", "-was"))}
    too_much = ("-email", "-date", "-at", "-extra", "-note", "-title")
    wrong |= {name: "Q" * 6000 for name in full if name.endswith(too_much)}
    assert english_in(client.post(url, wrong | {"do": "save", "sheet": "a1"})) == []
    begun = {name: "QQQ" for name in full if name.endswith(("-name", "-title", "-text", "-person"))}
    client.post(url, full | begun | {"do": "draft"})
    assert english_in(client.get(url)) == []


def test_refusals_hold_no_word_that_is_not_translated(told):
    client = Client(enforce_csrf_checks=True)
    client.get(link_path(told))
    assert english_in(client.post(STEP, {"x": "1"})) == []
    stranger = Client()
    stranger.cookies[CHOICE] = LONG
    assert english_in(stranger.get("/q/nobody-here/")) == []
    assert english_in(Client().get("/x", headers={"accept-language": LONG})) == []
    assert english_in(client.post(reverse("paste", args=[told.public_id]))) == []


def test_the_agreed_summary_holds_no_word_that_is_not_translated(told):
    client = couple_of(told)
    assert english_in(client.get(reverse("agreed", args=[told.public_id]))) == []
    told.refresh_from_db()
    shared(told)
    told.musthaves.all().delete()
    told.groups.filter(key="g3").delete()
    told.moments.filter(key="m0").update(unknown=False, at="14:00")
    for act in ("confirm", "say"):
        page = client.get(reverse("agreed", args=[told.public_id]))
        assert english_in(page) == []
        sent = Page(page).fields | {"do": act}
        assert english_in(client.post(page.request["PATH_INFO"], sent)) == []
        sent |= {"name": "Q", "text": ""} if act == "confirm" else {"text": "Q"}
        assert english_in(client.post(page.request["PATH_INFO"], sent, follow=True)) == []
    assert english_in(client.get(LIST)) == []


def test_their_own_copy_on_paper_holds_no_word_that_is_not_translated(told):
    told.refresh_from_db()
    shared(told)
    StepState.objects.create(wedding=told, slug="people", draft={"matters": ["Q"]})
    html = paper_html(subject_of(told), BY_KEY["their-words"])
    assert english_in(HttpResponse(html)) == []


def test_what_a_photographer_typed_or_a_couple_did_is_told_in_their_language(told):
    client = couple_of(told)
    for address, values in ((f"{LIST}read-through", {}), (STEP, fields(client, STEP))):
        assert english_in(client.post(address, values, follow=True)) == []
