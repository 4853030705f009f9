"""What holds on every address and in every source file. tests/asvs.toml says which rule asks it."""

import ast
import re
from pathlib import Path

import pytest
from django.apps import apps
from django.contrib.sessions.models import Session
from django.core import serializers
from django.test import Client
from django.urls import reverse

from planning.calendar_models import CalendarAddress, GivenEntry
from studio.models import Studio

from .conftest import member
from .planning.test_people import link_for
from .test_access import ONLY_WRITES, TABLE, addresses, visitors

__all__ = ["visitors"]  # a fixture
ROOT = Path(__file__).parent.parent
SOURCES = [p for folder in ("studio", "intake", "planning") for p in (ROOT / folder).rglob("*.py")]
SCRIPTS = sorted((ROOT / "static").glob("*.js"))
TEMPLATES = sorted((ROOT / "templates").rglob("*.html"))
PASSWORD = "three pale birds at noon"


def calls(path):
    """The dotted name of everything that a file calls."""
    for node in ast.walk(ast.parse(path.read_text())):
        if isinstance(node, ast.Call):
            yield ast.unparse(node.func), ast.unparse(node)


def answers(client, wedding):
    """The answer of every page that can be read, as this client sees it."""
    for name in TABLE:
        if name not in ONLY_WRITES:
            for address in addresses(name, wedding):
                yield address, client.get(address)


def test_no_source_runs_text_as_code_or_as_a_command():
    forbidden = re.compile(r"^(eval|exec|compile|__import__|os\.system|os\.popen|pickle\.loads?)$")
    for path in SOURCES:
        for name, call in calls(path):
            assert not forbidden.match(name), f"{path}: {call}"
            assert "shell=True" not in call, f"{path}: {call}"


def test_no_source_writes_sql_of_its_own_from_what_was_typed():
    for path in SOURCES:
        for name, call in calls(path):
            assert not name.endswith((".raw", ".extra", "RawSQL")), f"{path}: {call}"
            runs = (".execute", ".executemany", ".executescript")
            if name.endswith(runs) and not name.startswith(
                "super()"
            ):  # a command's, not a cursor's
                assert re.search(r"\.execute\w*\('[^']*'[,)]", call), f"{path}: {call}"


def test_no_source_reads_xml():
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text())):
            names = [a.name for a in getattr(node, "names", [])] if "Import" in str(node) else []
            names += [node.module or ""] if isinstance(node, ast.ImportFrom) else []
            assert not any(name.startswith(("xml", "lxml")) for name in names), path


def test_no_source_hashes_with_what_is_broken():
    for path in SOURCES:
        for name, call in calls(path):
            assert not re.search(r"hashlib\.(md5|sha1)|'(md5|sha1)'", name + call), (
                f"{path}: {call}"
            )
            if name.endswith("salted_hmac"):  # Django's own choice is SHA-1
                assert "algorithm='sha256'" in call, f"{path}: {call}"


def test_nothing_that_was_typed_is_marked_as_safe_to_draw():
    for path in TEMPLATES:
        assert not re.search(r"\|\s*safe\b|autoescape\s+off", path.read_text()), path
    for path in SOURCES:
        assert not any(name.endswith("mark_safe") for name, _ in calls(path)), path


def test_no_script_makes_html_out_of_text():
    forbidden = r"innerHTML|outerHTML|insertAdjacentHTML|document\.write|\beval\(|new Function"
    for path in SCRIPTS:
        assert not re.search(forbidden, path.read_text()), path


def test_no_script_stands_in_a_page():
    for path in TEMPLATES:
        text = path.read_text()
        assert not re.search(r"<script(?![^>]*\bsrc=)", text), path
        assert not re.search(r"\son[a-z]+\s*=", text), path
        assert not re.search(r"\sstyle\s*=|<style", text) or "papers" in path.parts, path


@pytest.mark.parametrize("number", range(7))
def test_every_answer_says_what_it_is_and_who_may_frame_it(wedding, visitors, number):
    for address, answer in answers(visitors[number], wedding):
        kind = answer["Content-Type"]
        assert "charset=utf-8" in kind or not kind.startswith("text/"), address
        assert answer["X-Content-Type-Options"] == "nosniff", address
        assert "Access-Control-Allow-Origin" not in answer, address
        assert answer["Referrer-Policy"] == "same-origin", address
        policy = answer["Content-Security-Policy"]
        for rule in ("default-src 'none'", "frame-ancestors 'none'", "base-uri 'none'"):
            assert rule in policy, address
        assert "unsafe" not in policy, address


@pytest.mark.parametrize("number", range(7))
def test_no_answer_with_something_of_a_wedding_is_kept_by_a_browser(wedding, visitors, number):
    for address, answer in answers(visitors[number], wedding):
        assert "no-store" in answer["Cache-Control"], address
        assert "public" not in answer["Cache-Control"], address


@pytest.mark.parametrize("number", [1, 3])
def test_looking_at_every_page_changes_nothing(wedding, visitors, number):
    def rows():
        """Of every table but those that note who looked: sessions, and what calendars fetched."""
        noted = {Session, GivenEntry, CalendarAddress}
        models = [each for each in apps.get_models() if each not in noted]
        return [serializers.serialize("json", each._base_manager.order_by("pk")) for each in models]

    Studio.get()  # the first look at a new studio makes its row
    read = [each for name in TABLE if name not in ONLY_WRITES for each in addresses(name, wedding)]
    before = rows()
    for address in read:
        visitors[number].get(address)
    assert rows() == before


def test_markup_in_a_name_is_text_on_every_page(wedding, visitors):
    name = '<img src=x onerror="alert(1)"></title><script>alert(2)</script>'
    wedding.partners.update(name=name)
    wedding.places.create(key="p", name=name)
    wedding.groups.create(key="g", title=name, people=name)
    for number in (1, 3):
        for address, answer in answers(visitors[number], wedding):
            if answer["Content-Type"].startswith("text/html"):
                page = answer.content.decode()
                assert "<img src=x" not in page, address
                assert "<script>" not in page, address


def test_signing_in_gives_a_session_that_nobody_knew_before(db, django_user_model):
    django_user_model.objects.create_user("tansy", password=PASSWORD)
    client = Client()
    client.cookies["sessionid"] = "chosenbysomebodyelse"
    client.post(reverse("login"), {"username": "tansy", "password": PASSWORD})
    assert client.cookies["sessionid"].value != "chosenbysomebodyelse"
    assert len(client.cookies["sessionid"].value) >= 26  # of 36 letters: 134 bits


def test_a_session_that_was_signed_out_opens_nothing_when_it_is_sent_again(photographer):
    kept = photographer.cookies["sessionid"].value
    photographer.post(reverse("logout"))
    photographer.cookies["sessionid"] = kept
    assert photographer.get(reverse("season")).status_code == 302


def test_a_password_is_taken_exactly_as_it_was_typed(db, django_user_model):
    exact = "  Three pale birds  " + "x" * 100
    django_user_model.objects.create_user("tansy", password=exact)
    for typed, opens in [(exact, True), (exact.strip(), False), (exact.lower(), False)]:
        page = Client().post(reverse("login"), {"username": "tansy", "password": typed})
        assert (page.status_code == 302) is opens


def test_password_boxes_hide_what_is_typed_and_let_it_be_filled_in(photographer, django_user_model):
    first = link_for(photographer, member(django_user_model, "SECOND", "tansy"))
    for page in (
        Client().get(reverse("login")),
        Client().get(first, follow=True),
        photographer.get(reverse("password")),
    ):
        boxes = re.findall(r"<input[^>]*password[^>]*>", page.content.decode())
        assert boxes
        for box in boxes:
            assert 'type="password"' in box
            assert re.search(r'autocomplete="(current|new)-password"', box)


def test_cookies_are_out_of_reach_of_scripts_and_other_sites(wedding, db, django_user_model):
    django_user_model.objects.create_user("tansy", password=PASSWORD)
    client = Client()
    client.get(reverse("login"))
    client.post(reverse("login"), {"username": "tansy", "password": PASSWORD})
    client.get(f"/q/{wedding.public_id}/")
    assert {"sessionid", "csrftoken"} <= set(client.cookies)
    for name in client.cookies:
        assert client.cookies[name]["httponly"], name
        assert client.cookies[name]["samesite"] == "Lax", name


def test_a_page_that_falls_over_tells_nothing_of_why(photographer, wedding, monkeypatch):
    def fall(*args):
        raise RuntimeError("the secret in the engine room")

    monkeypatch.setattr("planning.views.load_brief", fall)
    photographer.raise_request_exception = False
    page = photographer.get(reverse("answers", args=[wedding.public_id]))
    assert page.status_code == 500
    assert "engine room" not in page.content.decode()
    assert "Traceback" not in page.content.decode()
