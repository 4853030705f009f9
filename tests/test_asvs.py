"""The written list of what keeps people out (asvs.toml) is whole, and names tests that exist."""

import ast
import json
import logging
import os
import subprocess
import sys
import tomllib
from functools import cache
from pathlib import Path

import pytest
from django.core import signing
from django.test import Client
from django.urls import reverse

from intake.links import COOKIE, COOKIE_SECONDS, link_path
from tests.conftest import member

ROOT = Path(__file__).parent.parent
ROWS = {
    name.replace("_", "."): row
    for name, row in tomllib.loads((ROOT / "tests" / "asvs.toml").read_text()).items()
}


@cache
def named_in(path):
    tree = ast.parse((ROOT / path).read_text())
    return {node.name for node in tree.body if isinstance(node, ast.FunctionDef)}


def test_every_requirement_of_level_1_and_each_named_one_of_level_2_is_there(evidence):
    asked = json.loads((evidence / "asvs.json").read_text())
    assert set(ROWS) == {*asked["level_1"], *asked["named_of_level_2"]}


@pytest.mark.parametrize("number", sorted(ROWS))
def test_each_is_held_by_something_or_says_why_it_does_not_apply(number):
    row = ROWS[number]
    assert row["asks"]
    assert bool(row.get("by") or row.get("look")) != bool(row.get("not_here"))
    for each in row.get("by", []):
        path, _, name = each.partition("::")
        assert name in named_in(path), each


def test_online_every_cookie_has_a_name_that_browsers_guard(tmp_path):
    code = (
        "from django.conf import settings as s; from intake.links import COOKIE\n"
        "print(s.SESSION_COOKIE_NAME, s.CSRF_COOKIE_NAME, COOKIE, s.SESSION_COOKIE_SECURE)"
    )
    kept = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    environment = kept | {"FOREDAY_DATA": str(tmp_path), "DJANGO_ALLOWED_HOSTS": "studio.example"}
    command = [sys.executable, "manage.py", "shell", "--no-imports", "-c", code]
    run = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, check=True)
    assert run.stdout.split() == [b"__Host-session", b"__Host-csrf", b"__Secure-couple", b"True"]


def test_a_couples_cookie_ends(wedding, monkeypatch):
    client = Client()
    client.get(link_path(wedding))
    now = signing.time.time()
    assert client.get(f"/q/{wedding.public_id}/").status_code == 200
    monkeypatch.setattr(signing.time, "time", lambda: now + COOKIE_SECONDS + 60)
    client.cookies[COOKIE]["max-age"] = ""  # as a browser would send it that forgot to forget
    assert client.get(f"/q/{wedding.public_id}/").status_code == 404


def test_a_page_that_is_refused_is_logged(wedding, django_user_model, caplog):
    caplog.set_level(logging.INFO, logger="foreday.access")
    client = Client()
    tansy = member(django_user_model, "SECOND", "tansy")
    client.force_login(tansy)
    client.get(reverse("studio"))
    client.get(reverse("second_photographer", args=[wedding.public_id]))
    assert f"refused studio to account {tansy.pk}" in caplog.text
    assert f"refused second_photographer of thora-lukasz to account {tansy.pk}" in caplog.text
