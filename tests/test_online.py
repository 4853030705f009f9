"""Online as the README says: through the real server, behind a proxy that ends TLS."""

import urllib.error
import urllib.request

import pytest

from tests.own_place import environment_for
from tests.server import BEHIND_A_PROXY, ONLINE, serving


class Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *args, **kwargs):
        return None


@pytest.fixture(scope="module")
def online(tmp_path_factory):
    """The server with the README's flag; answers to the proxy on this machine."""
    environment = environment_for(tmp_path_factory.mktemp("online"), **ONLINE)
    with serving(environment, *BEHIND_A_PROXY) as (address, _log):
        yield address


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
