import html
import json
import re
import socket
import subprocess
import sys
from datetime import date
from io import StringIO
from pathlib import Path
from urllib.request import HTTPCookieProcessor, build_opener, urlopen

import pytest
from django.contrib.auth import get_user_model
from django.core.management import CommandError, call_command
from django.utils import timezone

from intake.models import Wedding
from planning.demo.season import PUBLIC_IDS
from planning.management.commands.demo import free_port
from tests.own_place import environment_for

MANAGE = Path(__file__).resolve().parents[2] / "manage.py"


def demo(*arguments):
    out = StringIO()
    call_command("demo", *arguments, stdout=out)
    return out.getvalue()


@pytest.mark.django_db
def test_json_is_one_object_with_the_sign_in_and_every_couples_link():
    report = json.loads(demo("--no-serve", "--json", "--port", "8123"))
    assert set(report) == {"sign_in", "weddings"}
    assert set(report["sign_in"]) == {"url", "username", "password"}
    assert {wedding["id"] for wedding in report["weddings"]} == set(PUBLIC_IDS)
    for wedding in report["weddings"]:
        assert set(wedding) == {"id", "names", "date", "link"}
        assert date.fromisoformat(wedding["date"]) > timezone.localdate()
        assert wedding["link"].startswith(f"http://127.0.0.1:8123/q/{wedding['id']}/")
        assert " & " in wedding["names"]


@pytest.mark.django_db
def test_every_printed_link_opens_that_couples_questionnaire(client):
    for wedding in json.loads(demo("--no-serve", "--json"))["weddings"]:
        path = re.sub("^http://127.0.0.1:8000", "", wedding["link"])
        assert client.get(path).url == f"/q/{wedding['id']}/"


@pytest.mark.django_db
def test_the_password_is_new_on_each_run_and_the_links_stay():
    first, second = (json.loads(demo("--no-serve", "--json")) for _ in range(2))
    assert first["weddings"] == second["weddings"]
    user = get_user_model().objects.get(username=second["sign_in"]["username"])
    assert user.check_password(second["sign_in"]["password"])
    assert not user.check_password(first["sign_in"]["password"])
    assert not user.is_superuser


@pytest.mark.django_db
def test_the_printed_text_names_the_sign_in_and_each_couple():
    text = demo("--no-serve")
    assert re.search(r"Sign in +http://127\.0\.0\.1:8000/sign-in\n", text)
    assert re.search(r"Password +[a-z2-9]{4}(-[a-z2-9]{4}){3}\n", text)
    for wedding in Wedding.objects.all():
        assert wedding.names in text
        assert f"/q/{wedding.public_id}/" in text


@pytest.mark.django_db
def test_real_weddings_are_not_mixed_with_invented_ones():
    Wedding.objects.create()
    with pytest.raises(CommandError, match="FOREDAY_DATA") as refused:
        demo("--no-serve")
    assert refused.value.returncode == 2
    assert Wedding.objects.count() == 1
    assert not get_user_model().objects.exists()


@pytest.mark.parametrize("port", ["abc", "-1", "65536", "80.5", "", "٨٠٨٠"])
def test_a_port_that_is_none_is_refused(port):
    with pytest.raises(CommandError, match="--port") as refused:
        demo("--no-serve", f"--port={port}")
    assert refused.value.returncode == 2


def test_without_a_server_any_free_port_is_named():
    assert 0 < free_port() < 65536


def test_a_port_that_is_taken_is_one_clear_line_and_exit_2(tmp_path):
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        taken = str(other.getsockname()[1])
        run = subprocess.run(
            [sys.executable, str(MANAGE), "demo", "--port", taken],
            env=environment_for(tmp_path),
            capture_output=True,
            text=True,
        )
    assert run.returncode == 2
    assert run.stdout == ""
    assert len(run.stderr.splitlines()) == 1
    assert "--port" in run.stderr


def test_on_a_fresh_machine_it_serves_what_it_printed(tmp_path):
    command = [sys.executable, str(MANAGE), "demo", "--port", "0", "--json"]
    with subprocess.Popen(command, env=environment_for(tmp_path), stdout=subprocess.PIPE) as server:
        try:
            report = json.loads(server.stdout.readline())
            with urlopen(report["sign_in"]["url"]) as page:
                assert page.status == 200
            reader = build_opener(HTTPCookieProcessor())
            for wedding in report["weddings"]:
                with reader.open(wedding["link"]) as page:
                    assert wedding["names"] in html.unescape(page.read().decode())
        finally:
            server.terminate()
