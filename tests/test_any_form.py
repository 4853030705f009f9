"""Every form of the project with whatever can be sent to it: an answer each time, no traceback.

Its own boxes, buttons and others, odd values, one name twice, counts that are wrong, files that are
none, bodies that are no form. Every address also with odd parts, odd questions behind it and odd
headers. The questionnaire's steps have more of this, and what must be kept of it:
tests/intake/test_fuzz.py. The same at length, on either database:

    uv run pytest -m large -n 2 tests/test_any_form.py
"""

import copy
from urllib.parse import parse_qs, urlsplit

import pytest
from django.db import transaction
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from intake.models import CareNote, Contact, Group, MustHave
from tests.asked import EACH, ask
from tests.odd import (
    BODIES,
    FILE_NAMES,
    FILES,
    HEADERS,
    KINDS,
    NAMES,
    TEXT,
    VALUES,
    encoded,
    filled,
    in_path,
    with_file,
)
from tests.page import Page
from tests.planning.agreed import shared
from tests.test_access import COUPLES, SIGNS_IN, TABLE, WRITES, addresses, patterns, visitors

__all__ = ["visitors"]  # a fixture
FORM = "application/x-www-form-urlencoded"
TAKERS = sorted(WRITES | SIGNS_IN)  # tests/test_access.py: all else refuses a form
SHOWN = ("season", "due", "answers", "meeting", "groups", "light", "day", "ready", "bag", "phone")
SHOWN += ("late", "papers", "map", "calendar", "season_calendar", "steps", "read_through", "agreed")
SHOWN += ("words_json",)  # where whatever was kept is read
QUICK = settings(
    max_examples=2,
    deadline=None,
    derandomize=True,  # the same every time: a landing is no place for luck
    database=None,
    phases=[Phase.explicit, Phase.generate],  # making it shorter would take minutes
    suppress_health_check=list(HealthCheck),
)
each_form = pytest.mark.parametrize("name", TAKERS)


class Form(Page):
    """The page with what can be pressed on it, and what can be asked behind its address."""

    def __init__(self, response):
        self.presses, self.asks = [], set()
        super().__init__(response)
        self.fields = {
            name: [value or "" for value in values]
            for name, values in self.fields.items()
            if name and name != "csrfmiddlewaretoken"  # another each time, and not looked at here
        }

    def handle_starttag(self, tag, attrs):
        super().handle_starttag(tag, attrs)
        found = dict(attrs)
        if tag == "button" and found.get("name"):
            self.presses.append((found["name"], found.get("value") or ""))
        self.asks |= set(parse_qs(urlsplit(found.get("href") or "").query, keep_blank_values=True))
        if tag in ("input", "select") and found.get("name"):
            self.asks.add(found["name"])


@pytest.fixture
def full(timed, visitors):
    """A wedding with something on every page, and everybody who may open it."""
    Group.objects.create(wedding=timed, key="folks", title="Parents", people="Jarmila\nBohumil")
    Group.objects.create(wedding=timed, key="all", title="Everyone", people="Ada", wish="must")
    Contact.objects.create(wedding=timed, key="dj", role="Music", name="Šimon")
    MustHave.objects.create(wedding=timed, key="watch", text="The watch")
    CareNote.objects.create(wedding=timed, key="oma", person="Oma", kind="seat")
    for kind in EACH:
        ask(kind=kind, step="day")
    shared(timed)
    return timed


def who(name, visitors):
    """Whoever may send it: the couple, or the owner."""
    return visitors[1 if TABLE[name] == COUPLES else 3]


def form_at(client, address):
    shown = client.get(address)
    assert shown.status_code < 500
    there = shown.status_code == 200 and "html" in shown.get("Content-Type", "")
    return Form(shown) if there else None


def assert_calm(answer, *told):
    assert answer.status_code < 500, (answer.status_code, told, answer.content[:2_000])
    words = answer.content if not answer.streaming else b""
    assert b"Traceback (most recent call last)" not in words


def send(client, address, page, draw):
    """One form: as boxes, as boxes with a file, or as a body that is none."""
    way = draw(st.integers(0, 9))
    if way == 0:
        return client.generic("POST", address, draw(BODIES), draw(KINDS))
    post = draw(filled(page.fields if page else {}, page.presses if page else ()))
    if way > 2:
        return client.generic("POST", address, encoded(post), FORM)
    names = list(page.fields) if page else []
    name = draw(st.sampled_from([*names, "file", "pictures"]))
    content = with_file(post, name, draw(FILES), draw(FILE_NAMES))
    return client.generic("POST", address, content, draw(KINDS.filter(lambda k: "multi" in k)))


def tried(name, wedding, visitors, data, shown=1):
    client = who(name, visitors)
    cookies = copy.deepcopy(client.cookies)  # a new password ends the session
    with transaction.atomic():
        address = data.draw(st.sampled_from(addresses(name, wedding)), label="address")
        for _turn in range(2):
            answer = send(client, address, form_at(client, address), data.draw)
            assert_calm(answer, address)
            if answer.status_code == 302:  # and whatever was kept can be shown
                assert_calm(client.get(answer["Location"].partition("#")[0]))
        for again in data.draw(st.lists(st.sampled_from(SHOWN), min_size=shown, max_size=shown)):
            for where in addresses(again, wedding):
                assert_calm(who(again, visitors).get(where), where, "after", address)
        transaction.set_rollback(True)
    client.cookies = cookies


@each_form
def test_a_form_is_reached_as_it_stands(name, full, visitors):
    """Or what is tried below would be tried on a refusal."""
    taken = set()
    for address in addresses(name, full):
        client = who(name, visitors)
        page = form_at(client, address)
        with transaction.atomic():
            answer = client.generic("POST", address, encoded(page.fields if page else {}), FORM)
            transaction.set_rollback(True)
        taken.add(answer.status_code)
    assert taken & {200, 302}, taken


@each_form
@QUICK
@given(data=st.data())
def test_whatever_is_sent_is_answered(name, full, visitors, data):
    tried(name, full, visitors, data)


@pytest.mark.large
@each_form
@settings(QUICK, max_examples=8)
@given(data=st.data())
def test_whatever_is_sent_is_answered_at_length(name, full, visitors, data):
    tried(name, full, visitors, data, shown=2)


def asked(name, wedding, visitors, data):
    """By GET: odd questions behind the address, under odd headers, with odd cookies."""
    client = who(name, visitors)
    address = data.draw(st.sampled_from(addresses(name, wedding)))
    page = form_at(client, address)
    names = st.one_of(st.sampled_from(sorted(page.asks)), NAMES) if page and page.asks else NAMES
    question = data.draw(st.dictionaries(names, VALUES, max_size=6))
    cookies = copy.deepcopy(client.cookies)
    for cookie in data.draw(st.lists(st.sampled_from(["language", "link", "sheet"]), max_size=1)):
        client.cookies[cookie] = data.draw(st.sampled_from(["", "x", ":::", "\x01", "de-" * 99]))
    headers = data.draw(HEADERS)
    answer = client.generic("GET", f"{address}?{encoded(question)}", **headers)
    client.cookies = cookies
    assert_calm(answer, address, question)


def elsewhere(name, visitors, data):
    """Its address with other parts, read and posted to."""
    (pattern,) = [each for each in patterns() if each.name == name]
    parts = {part: "THE-PART" + "4" * (part == "pk") for part in pattern.pattern.converters}
    if not parts:
        return
    address = "/" + pattern.pattern.describe().strip("'").partition("'")[0]
    for part, converter in pattern.pattern.converters.items():
        kind = type(converter).__name__.removesuffix("Converter").lower()
        odd = data.draw(st.one_of(TEXT, st.sampled_from(["thora-lukasz", "a" * 2_000, "1"])))
        for written in (f"<{part}>", f"<{kind}:{part}>"):
            address = address.replace(written, in_path(odd))
    assert "<" not in address
    for way in ("GET", "HEAD", "POST", "PUT", "OPTIONS"):
        answer = who(name, visitors).generic(way, address)
        assert_calm(answer, way, address)


READ = [name for name in TABLE if name not in ("paper", "words_pdf", "second_photographer")]


@pytest.mark.parametrize("name", TABLE)
@settings(QUICK, max_examples=1)
@given(data=st.data())
def test_whatever_is_asked_is_answered(name, full, visitors, data):
    elsewhere(name, visitors, data)
    if name in READ:
        asked(name, full, visitors, data)


@pytest.mark.large
@pytest.mark.parametrize("name", TABLE)
@settings(QUICK, max_examples=4)
@given(data=st.data())
def test_whatever_is_asked_is_answered_at_length(name, full, visitors, data):
    elsewhere(name, visitors, data)
    asked(name, full, visitors, data)
