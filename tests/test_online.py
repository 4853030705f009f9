"""Online as the README says: through the real server, behind a proxy that ends TLS."""

import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest

from tests.own_place import environment_for

ROOT = Path(__file__).parent.parent
FLAGS = ["--trusted-proxy=127.0.0.1", "--trusted-proxy-headers=x-forwarded-for x-forwarded-proto"]


class Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *args, **kwargs):
        return None


@pytest.fixture(scope="module")
def online(tmp_path_factory):
    """waitress-serve with the README's flags; answers to the proxy on this machine."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    data = tmp_path_factory.mktemp("online")
    environment = environment_for(
        data,
        DJANGO_ALLOWED_HOSTS="studio.example",
        DJANGO_SECRET_KEY="only-for-this-test-and-long-enough-for-every-check-0123456789-abc",
    )
    run = [sys.executable, "manage.py", "migrate", "-v0"]
    subprocess.run(run, cwd=ROOT, env=environment, check=True)
    serve = [sys.executable, "-m", "waitress", f"--listen=127.0.0.1:{port}", *FLAGS]
    with subprocess.Popen(
        [*serve, "studio.wsgi:application"], cwd=ROOT, env=environment, stderr=subprocess.DEVNULL
    ) as server:
        for _ in range(100):
            with socket.socket() as probe:
                if probe.connect_ex(("127.0.0.1", port)) == 0:
                    break
            time.sleep(0.1)
        yield f"http://127.0.0.1:{port}"
        server.terminate()


def ask(online, path, visitor="203.0.113.5", data=None, **headers):
    sent = {"Host": "studio.example", "X-Forwarded-Proto": "https", "X-Forwarded-For": visitor}
    request = urllib.request.Request(online + path, data=data, headers=sent | headers)
    try:
        with urllib.request.build_opener(Stay).open(request, timeout=20) as answer:
            return answer.status, answer.headers, answer.read().decode()
    except urllib.error.HTTPError as answer:
        with answer:
            return answer.code, answer.headers, answer.read().decode()


def sign_in(online, visitor):
    """A wrong password from one address, as a browser sends it."""
    _status, headers, page = ask(online, "/sign-in", visitor)
    token = page.split('name="csrfmiddlewaretoken" value="')[1].split('"')[0]
    cookie = headers["Set-Cookie"].split(";")[0]
    body = f"csrfmiddlewaretoken={token}&username=marigold&password=guess".encode()
    more = {"Cookie": cookie, "Referer": "https://studio.example/sign-in"}
    return ask(online, "/sign-in", visitor, body, **more)[0]


def test_the_sign_in_opens_and_its_cookies_are_for_https_alone(online):
    status, headers, _page = ask(online, "/sign-in")
    assert status == 200
    assert headers["Set-Cookie"].startswith("__Host-csrf=")
    assert "max-age=" in headers["Strict-Transport-Security"]


def test_guesses_from_one_address_lock_nobody_out_at_another(online):
    answers = [sign_in(online, "203.0.113.9") for _ in range(8)]
    assert answers[-1] == 429
    assert sign_in(online, "198.51.100.4") == 200  # told that the password is wrong, no more


def test_a_strange_host_is_refused_under_the_same_policy(online):
    status, headers, _page = ask(online, "/sign-in", Host="evil.example")
    assert status == 400
    assert "default-src 'none'" in headers["Content-Security-Policy"]
