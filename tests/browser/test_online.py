"""A studio online as the guide says: nginx ends TLS, two processes serve, a browser comes through.

The certificate is our own, so the browser is told to take it; all else is as the guide has it.
"""

import io
import json
import re
import secrets
import ssl
import subprocess
import time
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path

import pytest
from PIL import Image
from playwright.sync_api import expect

from tests.own_place import environment_for
from tests.proxy import NAME, Visitor, proxying
from tests.server import BEHIND_A_PROXY, ONLINE, manage, serving

from .chromium import chromium

pytestmark = pytest.mark.xdist_group("browser")


@dataclass(frozen=True)
class Online:
    http: int
    https: int
    password: str
    links: list[str]
    place: Path
    logs: list


@pytest.fixture(scope="module")
def online(tmp_path_factory):
    """The demo's season, served by two processes behind one nginx."""
    place = tmp_path_factory.mktemp("online")
    environment = environment_for(place / "data", FOREDAY_LOG="json", **ONLINE)
    said = json.loads(manage(environment, "demo", "--no-serve", "--json"))
    links = [re.sub(r"^https?://[^/]+", "", each["link"]) for each in said["weddings"]]
    with ExitStack() as stack:
        servers = [stack.enter_context(serving(environment, *BEHIND_A_PROXY)) for _ in range(2)]
        ports = [int(address.rpartition(":")[2]) for address, _log in servers]
        http, https = stack.enter_context(proxying(place, *ports))
        logs = [log for _address, log in servers]
        yield Online(http, https, said["sign_in"]["password"], links, place, logs)


@pytest.fixture(scope="module")
def browser(online):
    """It finds the studio's name on this machine, at the ports where nginx listens."""
    here = f"MAP {NAME}:80 127.0.0.1:{online.http}, MAP {NAME}:443 127.0.0.1:{online.https}"
    with chromium(f"--host-resolver-rules={here}") as browser:
        yield browser


def test_the_photographer_signs_in_and_plans_through_the_proxy(online, page_of):
    page = page_of(ignore_https_errors=True)
    page.goto(f"http://{NAME}/")
    expect(page).to_have_url(f"https://{NAME}/sign-in?next=/")
    page.get_by_label("Name", exact=True).fill("marigold")
    page.get_by_label("Password").fill(online.password)
    page.get_by_role("button", name="Sign in").click()
    expect(page.get_by_role("heading", name="Season")).to_be_visible()
    cookies = {each["name"]: each for each in page.context.cookies()}
    assert set(cookies) == {"__Host-session", "__Host-csrf"}
    assert all(each["secure"] and each["httpOnly"] for each in cookies.values())
    wedding = online.links[0].split("/")[2]
    for screen in ("day", "link", "papers"):
        assert page.goto(f"https://{NAME}/w/{wedding}/{screen}").status == 200
    page.goto(f"https://{NAME}/w/{wedding}/link")
    assert page.get_by_label("The link").input_value() == f"https://{NAME}{online.links[0]}"
    with page.expect_download(timeout=60_000) as pack:
        page.evaluate(f"location = '/w/{wedding}/day-pack.pdf'")
    assert Path(pack.value.path()).read_bytes().startswith(b"%PDF-")


def large_picture():
    """18 MB that do not compress: noise, as a camera's largest file is for a decoder."""
    noise = Image.frombytes("RGB", (3600, 3600), secrets.token_bytes(3600 * 3600 * 3))
    file = io.BytesIO()
    noise.save(file, "JPEG", quality=97)
    assert 15_000_000 < len(file.getvalue()) < 20_000_000
    return file.getvalue()


def test_the_couple_opens_the_link_and_sends_a_large_picture(online, page_of):
    page = page_of(width=360, ignore_https_errors=True)
    page.goto(f"https://{NAME}{online.links[0]}")
    wedding = online.links[0].split("/")[2]
    expect(page).to_have_url(f"https://{NAME}/q/{wedding}/")
    assert {each["name"] for each in page.context.cookies()} >= {"__Secure-couple"}
    page.goto(f"https://{NAME}/q/{wedding}/step/pictures")
    before = page.locator("main img").count()
    picture = {"name": "large.jpg", "mimeType": "image/jpeg", "buffer": large_picture()}
    page.get_by_label("Choose pictures").set_input_files(picture)
    page.get_by_role("button", name="Keep").first.click(timeout=60_000)
    expect(page.get_by_text("Added: 1 picture.")).to_be_visible(timeout=60_000)
    shown = page.locator("main img")
    expect(shown).to_have_count(before + 1)
    page.wait_for_function("[...document.querySelectorAll('main img')].every(i => i.naturalWidth)")


def test_what_every_answer_carries(online):
    visitor = Visitor(online.place, online.https)
    assert visitor.ask("/sign-in")[0] == 200
    assert int(re.search(r"max-age=(\d+)", visitor.headers["Strict-Transport-Security"])[1]) > 3e7
    assert "default-src 'none'" in visitor.headers["Content-Security-Policy"]
    assert visitor.headers["X-Content-Type-Options"] == "nosniff"
    assert visitor.headers["Referrer-Policy"] == "same-origin"
    assert visitor.headers["Server"] == "nginx"  # and no version, of either
    assert all("Secure" in each for each in visitor.headers.get_all("Set-Cookie"))


def test_the_health_is_told_through_the_proxy(online):
    assert Visitor(online.place, online.https).ask("/health") == (200, "ok\n")


@pytest.mark.parametrize(
    ("version", "opens"), [("tls1_1", False), ("tls1_2", True), ("tls1_3", True)]
)
def test_only_the_versions_of_tls_that_are_sound_open(online, version, opens):
    """As OWASP ASVS 5.0, 12.1.1 asks; the oldest is offered in earnest, with its weak ciphers."""
    command = ["openssl", "s_client", "-connect", f"127.0.0.1:{online.https}", f"-{version}"]
    command += ["-servername", NAME]
    if version == "tls1_1":
        command += ["-cipher", "DEFAULT:@SECLEVEL=0"]
    run = subprocess.run(command, stdin=subprocess.DEVNULL, capture_output=True)
    assert (run.returncode == 0) is opens, run.stderr


def test_plain_http_leads_to_https_and_never_to_another_name(online):
    connection = HTTPConnection("127.0.0.1", online.http, timeout=30)
    connection.request("GET", "/q/x/y?z", headers={"Host": "evil.example"})
    answer = connection.getresponse()
    assert (answer.status, answer.headers["Location"]) == (301, f"https://{NAME}/q/x/y?z")
    connection.close()


def test_whoever_asks_by_another_name_is_not_let_in(online):
    with pytest.raises(ssl.SSLError):
        Visitor(online.place, online.https, "evil.example").ask("/sign-in")


def test_a_form_that_is_too_large_is_stopped_before_it_arrives(online):
    visitor = Visitor(online.place, online.https)
    for path, megabytes in (("/sign-in", 5), (f"{online.links[0]}/step/pictures", 300)):
        size = str(megabytes * 1024 * 1024)
        assert visitor.ask(path, {}, **{"Content-Length": size})[0] == 413


def test_wrong_passwords_are_counted_by_both_processes_whatever_the_visitor_claims_to_be(online):
    visitor = Visitor(online.place, online.https)
    answers = []
    for number in range(7):
        typed = visitor.form("/sign-in") | {"username": "marigold", "password": "a guess"}
        claims = {"X-Forwarded-For": f"203.0.113.{number}"}
        answers.append(visitor.ask("/sign-in", typed, **claims)[0])
    assert answers[-1] == 429
    assert answers[:4] == [200] * 4


def test_couples_of_several_weddings_write_through_two_processes_at_once(online):
    """Each twenty times; what was kept last is read back by whichever process answers."""

    def write(link):
        couple, wedding = Visitor(online.place, online.https), link.split("/")[2]
        couple.ask(link)
        step = f"/q/{wedding}/step/two-of-you"
        for number in range(20):
            typed = couple.form(step) | {"wedding-matters": f"{wedding} {number}"}
            assert couple.ask(step, typed)[0] == 302
        return couple.form(step)["wedding-matters"] == [f"{wedding} 19"]

    with ThreadPoolExecutor(len(online.links)) as pool:
        assert all(pool.map(write, online.links))


def test_one_address_may_try_passwords_only_so_fast(online):
    """Counted by the proxy, whatever is in the form: these are refused before it is read."""
    visitor = Visitor(online.place, online.https)
    answers = {visitor.ask("/sign-in", {})[0] for _try in range(40)}
    assert answers == {403, 429}
    assert visitor.ask("/sign-in")[0] == 200  # the page itself opens, and so does all else


def test_both_processes_answered_and_no_log_holds_a_link(online):
    """Last: it reads what the tests above have left."""
    # nginx leaves out a process that was slow to answer, for ten seconds: ask for longer.
    visitor, until = Visitor(online.place, online.https), time.monotonic() + 30
    while not all("answered login with 200" in log() for log in online.logs):
        assert time.monotonic() < until, "one of the two processes gets nothing to do"
        visitor.ask("/sign-in")
    for log in online.logs:
        lines = [json.loads(line) for line in log().splitlines()]
        assert not [line for line in lines if line["level"] == "ERROR"]
    written = [log() for log in online.logs]
    written += [path.read_text() for path in online.place.rglob("*.log")]
    for link in online.links:
        token = link.split("/")[3]
        assert not any(token in each for each in written)
