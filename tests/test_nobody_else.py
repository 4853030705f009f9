"""Nobody else is called: no page, paper, mail or calendar refers to another host.

What a browser really fetches is watched in tests/browser/test_weight.py.
"""

import re
from urllib.parse import parse_qs, urlsplit

import pytest
from django.db import models
from django.http import HttpResponse
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.models import Partner, Picture, Place, StepState
from intake.store import put
from planning.kinds import copy_kind
from planning.models import GivenEntry, KitItem, StudioPicture
from planning.paper.sheets import SHEETS
from planning.paper.subject import subject_of
from planning.pdf import STATIC, paper_html, paper_pdf
from planning.press.apart import draw_apart
from planning.press.draw import Job
from planning.season_calendar import season_calendar, wedding_calendar
from tests.asked import ask, kept_as
from tests.conftest import owner
from tests.planning.marked import fields_with_words, marked_wedding
from tests.planning.test_erasing import ALL, rows_of
from tests.planning.test_privacy import NO_WORDS, ROWS
from tests.test_access import ONLY_WRITES, OWN_KIND, TABLE, addresses

from .refers import (
    Refers,
    in_calendar,
    in_headers,
    in_pdf,
    in_script,
    in_style,
    strangers,
)

OWN = {"testserver"}
# No host at all; what may be followed without one, and why.
ALLOWED = {
    "data": "drawings and QR codes that are in the page itself",
    "mailto": "opens the reader's own mail program, when pressed",
    "tel": "dials on the reader's own phone, when pressed",
    "geo": "opens the reader's own map, when pressed (RFC 5870)",
}
DRAWN = {"paper", "words_pdf", "second_photographer"}  # looked at below, before they are drawn
WORDS = (models.CharField, models.TextField)
TYPED = "//elsewhere.example/x.png"  # by a couple, in every box that has room


@pytest.fixture
def full(db, kept_files):
    """A wedding with everything there can be, and another host's address typed all over it."""
    wedding = marked_wedding(ROWS)
    typed = fields_with_words() - NO_WORDS
    for label, pk in rows_of(wedding):
        model = ALL[label]
        for field in model._meta.concrete_fields:
            words = (label.lower(), field.name) in typed and isinstance(field, WORDS)
            if words and (field.max_length is None or field.max_length > 40):
                name = f"{label}.{field.name}"[-14:]
                model._base_manager.filter(pk=pk).update(**{field.name: f"{name} {TYPED}"})
    for model, name in ((Partner, "phone"), (Place, "coordinator_phone")):
        model.objects.update(**{name: "07700 900111"})  # one that can be rung
    GivenEntry.objects.update(starts="2027-06-12", ends="2027-06-13")
    StepState.objects.update(draft={"matters": [TYPED]})
    copy_kind("small", OWN_KIND)
    KitItem.objects.create(key="zoom", kind="lens", title=f"Zoom {TYPED}")
    for model, key in ((Picture, "p"), (StudioPicture, "o")):
        files = put((b"large", b"small", (60, 40)), "marked", key).as_row()
        model.objects.filter(key=key).update(**files | {"key": "key-of-marked"})
    kept = put((b"large", b"small", (60, 40)), "marked", "d")
    ask(wedding, "file", key="key-of-marked", answer=kept_as(kept, "list.pdf"))
    return wedding


@pytest.fixture
def signed_in(db, django_user_model):
    client = Client()
    client.force_login(owner(django_user_model, "marigold"))
    return client


def referred(response):
    found = list(in_headers(response))
    kind = response.get("Content-Type", "")
    if kind.startswith("text/html"):
        found += Refers(response.content.decode()).found
    elif kind.startswith("text/calendar"):
        found += in_calendar(response.content)
    return found


def test_no_page_refers_to_another_host(full, signed_in):
    """Every address of the table of who may open what; new ones are looked at by themselves."""
    found, seen, ways = {}, set(), set()
    for name in sorted(set(TABLE) - ONLY_WRITES - DRAWN):
        for address in addresses(name, full):
            response = signed_in.get(address)
            assert response.status_code in (200, 302), address
            refers = referred(response)
            found[address] = strangers(refers, OWN, ALLOWED)
            ways |= {urlsplit(each).scheme for _where, each in refers}
            seen |= {name} if TYPED.encode() in response.content else set()
    assert {address: each for address, each in found.items() if each} == {}
    assert {"answers", "read_through", "agreed", "day"} <= seen  # what was typed is there to see
    assert ways - {"", "http"} == set(ALLOWED)  # what nobody uses is not allowed either


def test_pages_that_refuse_or_are_not_there_refer_to_nobody(full, signed_in):
    for response in (
        Client().get("/"),
        Client().get("/x"),
        Client().get("/q/marked/"),
        Client(enforce_csrf_checks=True).post("/sign-in", {}),
        signed_in.post(reverse("booking", args=["marked"]), {"first": TYPED}),
        signed_in.post("/studio", {"name": ""}),
    ):
        found = referred(response)
        assert found
        assert strangers(found, OWN, ALLOWED) == []


def test_no_paper_and_no_calendar_refers_to_another_host(full):
    subject = subject_of(full)
    for sheet in SHEETS:
        for reader in sheet.readers(subject):
            html = paper_html(subject, sheet, reader)
            assert "elsewhere.example" in html
            assert strangers(Refers(html).found, set(), ALLOWED) == [], sheet.key
    assert strangers(in_pdf(paper_pdf(subject, SHEETS[0])), set(), ALLOWED) == []
    for content in (wedding_calendar(full)[0], season_calendar(timezone.now())):
        assert b"BEGIN:VEVENT" in content
        assert strangers(in_calendar(content), set(), ALLOWED) == []


def test_the_mail_to_a_couple_leads_to_us_and_nowhere_else(wedding, signed_in):
    page = signed_in.get(reverse("link", args=[wedding.public_id]))
    (mail,) = [each for _where, each in Refers(page.content.decode()).found if "mailto:" in each]
    body = parse_qs(urlsplit(mail).query)["body"][0]
    links = re.findall(r"\S*//\S+", body)
    assert len(links) == 1
    assert urlsplit(links[0]).netloc in OWN
    assert "<" not in body


@pytest.mark.parametrize(
    "path",
    [path for path in STATIC.rglob("*") if path.suffix in {".css", ".js"}],
    ids=lambda path: path.name,
)
def test_no_style_or_script_of_ours_refers_to_another_host(path):
    text = path.read_text()
    found = in_style(text) if path.suffix == ".css" else in_script(text)
    assert strangers(found, set(), ALLOWED) == []


@pytest.mark.parametrize(
    "html",
    [
        '<img src="https://elsewhere.example/x.png">',
        '<img src="//elsewhere.example/x.png">',
        '<img srcset="/x.png 1x, //elsewhere.example/x.png 2x">',
        '<a href="http://elsewhere.example">',
        '<a href="javascript:alert(1)">',
        '<form action="https://elsewhere.example/">',
        '<button formaction="https://elsewhere.example/">',
        '<p style="background: url(https://elsewhere.example/x.png)">',
        "<style>@import '//elsewhere.example/x.css';</style>",
        '<meta http-equiv="refresh" content="0; url=https://elsewhere.example/">',
        '<svg><image xlink:href="https://elsewhere.example/x.png"/></svg>',
        '<script>fetch("https://elsewhere.example/")</script>',
        '<base href="https://elsewhere.example/">',
    ],
)
def test_the_test_itself_sees_each_way_to_another_host(html):
    assert strangers(Refers(html).found, OWN, ALLOWED)


def test_the_test_itself_sees_another_host_in_papers_calendars_and_headers():
    html = '<html lang="en"><title>x</title><a href="https://elsewhere.example/">x</a>'
    pdf = draw_apart(Job(html, STATIC))
    assert strangers(in_pdf(pdf), set(), ALLOWED) == [("/URI", "https://elsewhere.example/")]
    line = b"BEGIN:VEVENT\r\nATTACH;FMTTYPE=a/b:https://elsewh\r\n ere.example/x\r\n"
    assert strangers(in_calendar(line), set(), ALLOWED)
    answer = HttpResponse(headers={"Content-Security-Policy": "img-src https://elsewhere.example"})
    assert strangers(in_headers(answer), OWN, ALLOWED)
