"""What the log says, and what it never says."""

import io
import json
import logging
import os
import re
import subprocess
import sys
import urllib.error
import urllib.request
from contextlib import contextmanager

import pytest
from django.conf import settings as running_settings
from django.db import IntegrityError, OperationalError
from django.test import Client
from django.urls import reverse

from intake.links import link_path, link_token
from studio.logs import OTHER_NAME, JsonLines, PlainLines, without_links
from tests.own_place import environment_for
from tests.server import ROOT, serving
from tests.test_access import ONLY_WRITES, SECRETS, TABLE, addresses, patterns, visitors

__all__ = ["visitors"]  # a fixture
PASSWORD = "three pale birds at noon"
RESET = "a1b2c3-" + "d" * 32


@contextmanager
def collected(formatter):
    """Everything the loggers write while the block runs, requests included."""
    written = io.StringIO()
    handler = logging.StreamHandler(written)
    handler.setFormatter(formatter())
    everything, requests = logging.getLogger(), logging.getLogger("foreday.request")
    everything.addHandler(handler)
    before = requests.level
    requests.setLevel(logging.INFO)
    try:
        yield written.getvalue
    finally:
        requests.setLevel(before)
        everything.removeHandler(handler)


@pytest.fixture
def objects():
    """The log's lines as JSON, when called."""
    with collected(JsonLines) as text:
        yield lambda: [json.loads(line) for line in text().splitlines()]


def test_a_request_is_told_by_the_name_of_its_address(photographer, wedding, objects):
    photographer.get(reverse("day", args=[wedding.public_id]))
    (line,) = objects()
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z", line.pop("time"))
    assert line.pop("ms") > 0
    assert line == {
        "level": "INFO",
        "logger": "foreday.request",
        "message": "answered day with 200",
        "address": "day",
        "status": 200,
        "account": int(photographer.session["_auth_user_id"]),
    }


def test_whoever_is_not_signed_in_has_no_account(wedding, db, objects):
    Client().get("/nothing/of/ours")
    Client().get(link_path(wedding))
    Client().get("/static/site.css").close()
    told = [(line["address"], line["status"], line["account"]) for line in objects()]
    assert told == [
        ("no address of ours", 404, None),
        ("open_link", 302, None),
        ("static", 200, None),
    ]


def test_a_health_that_is_well_is_not_worth_a_line(db, objects, monkeypatch):
    Client().get("/health")
    assert objects() == []
    monkeypatch.setattr("studio.health.of_folder", lambda: "the data folder cannot be written")
    Client().get("/health")
    assert [line["message"] for line in objects()] == [
        "the data folder cannot be written",
        "answered health with 503",
        "Service Unavailable: health",
    ]


def go_everywhere(wedding, visitors):
    """Every page for everybody, forged forms, wrong links and wrong guesses at a password."""
    for client in visitors:
        for name in set(TABLE) - ONLY_WRITES:
            for address in addresses(name, wedding):
                client.get(address)
    forger = Client(enforce_csrf_checks=True)
    forger.post(link_path(wedding), {"name": "Łukasz"})
    forger.post(f"/password/MQ/{RESET}", {"new_password1": PASSWORD})
    Client().get(link_path(wedding) + "x")
    Client().get(link_path(wedding), headers={"host": "evil.example"})
    for name in (PASSWORD, "marigold"):
        Client().post(reverse("login"), {"username": name, "password": PASSWORD})


def fall_over(wedding, visitors, monkeypatch):
    """A couple's link and a photographer's page, each with words of the couple in the error."""

    def fall(*_args):
        raise IntegrityError(f"Key (name)=(Þóra) already exists: {link_path(wedding)}")

    monkeypatch.setattr("intake.views.give_cookie", fall)
    monkeypatch.setattr("planning.views.load_brief", fall)
    for client in visitors[1], visitors[3]:
        client.raise_request_exception = False
    assert visitors[1].get(link_path(wedding)).status_code == 500
    answers = reverse("answers", args=[wedding.public_id])
    assert visitors[3].get(answers).status_code == 500


def test_no_name_no_link_and_no_secret_is_in_the_log(wedding, visitors, monkeypatch):
    with collected(JsonLines) as lines:
        go_everywhere(wedding, visitors)
        fall_over(wedding, visitors, monkeypatch)
    told = [json.loads(line) for line in lines().splitlines()]
    assert {"open_link", "day", "login", "no address of ours"} <= {t.get("address") for t in told}
    assert sum(line.get("error") == "IntegrityError" for line in told) == 2
    text = "\n".join(map(str, told))
    morsels = [morsel for client in visitors for morsel in client.cookies.values()]
    cookies = [morsel.value for morsel in morsels if len(morsel.value) > 9]
    assert len(cookies) > 5
    secrets = {tail for make in SECRETS.values() if len(tail := make(wedding).split("/")[-1]) > 9}
    assert link_token(wedding) in secrets
    for secret in (*secrets, RESET, PASSWORD, running_settings.SECRET_KEY, *cookies):
        assert secret not in text
    for name in ("Þóra", "Sigurðardóttir", "Łukasz", "Wiśniewski", "Wanjir"):
        assert name not in text


def test_no_link_and_no_name_is_in_plain_lines_either(wedding, visitors, monkeypatch):
    with collected(PlainLines) as lines:
        go_everywhere(wedding, visitors)
        fall_over(wedding, visitors, monkeypatch)
    assert "Internal Server Error: open_link\nTraceback" in lines()
    assert link_token(wedding) not in lines()
    assert RESET not in lines()
    assert PASSWORD not in lines()
    for name in ("Þóra", "Sigurðardóttir", "Łukasz", "Wiśniewski", "Wanjir"):
        assert name not in lines()


def raised(error, *args):
    record = logging.LogRecord("x", logging.ERROR, __file__, 1, "fell at %s", args, None)
    try:
        raise error
    except type(error) as caught:
        record.exc_info = (type(caught), caught, caught.__traceback__)
    return record


def test_an_error_is_told_by_its_kind_and_way_and_not_in_its_words():
    line = JsonLines().format(raised(IntegrityError("(name)=(Þóra)"), "/q/some-wedding/a-secret"))
    told = json.loads(line)
    assert told["error"] == "IntegrityError"
    assert told["came_through"][-1].endswith(" raised")
    assert told["message"] == "fell at /q/..."
    assert "ra)" not in line


@pytest.mark.parametrize(
    ("error", "reason"),
    [
        (OSError(28, "No space left on device", "/home/of/thora"), "No space left on device"),
        (OperationalError("database is locked\nDETAIL: x"), "database is locked"),
    ],
)
def test_what_is_wrong_with_the_machine_is_told(error, reason):
    line = JsonLines().format(raised(error, "x"))
    assert json.loads(line)["reason"] == reason
    assert "thora" not in line


def test_plain_lines_tell_an_error_by_its_kind_and_way_too():
    text = PlainLines().format(raised(ValueError("no such name: Þóra"), "/q/wedding/secret"))
    assert text.startswith("fell at /q/...\nTraceback")
    assert re.search(r"\n  \S+test_logs.py:\d+ raised\nValueError$", text)
    full = PlainLines().format(raised(OSError(28, "No space left on device", "/thora"), "x"))
    assert full.endswith("\nOSError: No space left on device")


def test_whoever_mends_the_program_reads_an_error_in_its_words_without_links(settings):
    settings.DEBUG = True
    text = PlainLines().format(raised(ValueError("at /password/MQ/secret"), "/q/wedding/secret"))
    assert text.startswith("fell at /q/...\nTraceback")
    assert text.endswith("ValueError: at /password/...")


def with_a_secret():
    """The path of every address that holds a token, with MARKER for it."""
    for pattern in patterns():
        takes = pattern.pattern.converters
        if "token" in takes:
            sample = {"int": "1", "slug": "some-key", "str": "MQ", "path": "some/key"}
            values = {each: sample[converter_name(takes[each])] for each in takes}
            yield reverse(pattern.name, kwargs=values | {"token": "MARKER"})


def converter_name(converter):
    return type(converter).__name__.removesuffix("Converter").lower().replace("string", "str")


def test_no_address_with_a_secret_in_it_is_left_in_a_line():
    paths = list(with_a_secret())
    assert len(paths) >= 3
    for path in paths:
        for line in (f"Not found: {path}", f"GET http://127.0.0.1:8000{path} HTTP/1.1"):
            assert "MARKER" in line
            assert "MARKER" not in without_links(line)


def test_a_line_stays_one_line_whatever_is_in_it():
    record = logging.LogRecord("x", logging.INFO, "", 1, 'one\ntwo "three" \u2028', None, None)
    line = JsonLines().format(record)
    assert len(line.splitlines()) == 1
    assert json.loads(line)["message"] == 'one\ntwo "three" \u2028'


def test_the_real_server_writes_json_from_its_first_line(tmp_path):
    environment = environment_for(tmp_path, FOREDAY_LOG="json")
    with serving(environment) as (address, log):
        urllib.request.urlopen(f"{address}/sign-in").read()
        lines = [line for line in log().splitlines() if not line.startswith("Open ")]
    told = [json.loads(line) for line in lines]
    assert [line["message"] for line in told] == ["answered login with 200"]


def test_a_phone_that_asks_by_a_wrong_address_is_told_of_in_one_line(tmp_path):
    with serving(environment_for(tmp_path)) as (address, log):
        asked = urllib.request.Request(f"{address}/sign-in", headers={"Host": "192.168.1.20:8000"})
        with pytest.raises(urllib.error.HTTPError, match="400"):
            urllib.request.urlopen(asked)
        lines = [line for line in log().splitlines() if not line.startswith("Open ")]
    assert lines == [OTHER_NAME]


def test_a_kind_of_log_that_there_is_not_is_told(tmp_path):
    environment = os.environ | {"FOREDAY_DATA": str(tmp_path), "FOREDAY_LOG": "xml"}
    command = [sys.executable, "manage.py", "check"]
    run = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True)
    assert (run.returncode, run.stderr) == (2, "FOREDAY_LOG: leave it out, or set it to json.\n")
