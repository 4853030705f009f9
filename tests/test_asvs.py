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


EVERY_COOKIE = """
import json
from django.conf import settings
from django.contrib.auth import get_user_model
from django.core.management import call_command
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from intake.links import link_path
from intake.models import Day, Wedding
from planning.sheet_links import make_link, sheet_path

call_command("migrate", verbosity=0)
user = get_user_model().objects.create_superuser("tansy", password="three pale birds at noon")
wedding = Wedding.objects.create(public_id="marked")
Day.objects.create(wedding=wedding, date=timezone.now().date())
make_link(wedding, "second-photographer", "", by=user.pk)
client = Client(headers={"host": "studio.example", "x-forwarded-proto": "https"})
client.get(reverse("login"))
client.post(reverse("login"), {"username": "tansy", "password": "three pale birds at noon"})
client.post(reverse("subscription"), {"do": "revoke"})  # the page after it says so once
client.get(link_path(wedding))
client.post(reverse("language", args=["marked"]), {"language": "de"})
client.get(sheet_path(wedding.sheet_links.get()))
told = ("secure", "httponly", "samesite")
print(json.dumps({name: [each[what] for what in told] for name, each in client.cookies.items()}))
"""


def test_online_every_cookie_is_guarded_by_its_name_and_kept_from_scripts_and_other_sites(tmp_path):
    kept = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    environment = kept | {"FOREDAY_DATA": str(tmp_path), "DJANGO_ALLOWED_HOSTS": "studio.example"}
    command = [sys.executable, "manage.py", "shell", "--no-imports", "-c", EVERY_COOKIE]
    run = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True)
    assert run.returncode == 0, run.stderr
    found = json.loads(run.stdout)
    assert set(found) == {
        "__Host-csrf",
        "__Host-session",
        "__Host-messages",
        "__Secure-couple",
        "__Secure-couple-language",
        "__Secure-sheet",
    }
    assert all(each == [True, True, "Lax"] for each in found.values()), found


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
