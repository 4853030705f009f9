"""Scanners on the source and on a running Foreday; nothing they find may be left unexplained.

    .ci/scan                  all of them, about ten minutes
    .ci/scan bandit ffuf      these

The app runs as `serve` starts it, on the invented season in a folder of its own, asked on loopback
alone. wapiti is signed in as the owner, then holds a couple's link, then is a stranger. Exits 1
where a finding is not in explained.toml, where the scanner misses the holes of planted.py or saw
too little, or where the photographer cannot sign in afterwards.
"""

import json
import os
import subprocess
import sys
import tempfile
import time
import tomllib
from contextlib import contextmanager, suppress
from fnmatch import fnmatchcase
from pathlib import Path
from urllib.parse import urlsplit

import django
from django.urls import NoReverseMatch, Resolver404, resolve, reverse

from tests.own_place import environment_for
from tests.scan import planted
from tests.scan.tools import OURS, BrokenScannerError, bandit, ffuf, wapiti
from tests.server import ROOT, free_port, manage, running, serving
from tests.signed_in import browser, signed_in

HERE = Path(__file__).parent
EXPLAINED = tomllib.loads((HERE / "explained.toml").read_text())["explained"]
WEDDING = "demo-orchard-barn"
NOT_ASKED = ["/sign-out*"]  # it would end the scan
# Behind a secret of its own, a file, or what only takes a form that is elsewhere.
SECRETS = {"choose_password", "open_link", "open_sheet", "sheet", "subscribed"}
FILES = {"own_file", "sent_own_file", "second_photographer", "words_pdf"}
NOT_LED_TO = SECRETS | FILES | {"logout", "phone_links"}
SECONDS = int(os.environ.get("SECONDS_FOR_EACH_ATTACK", "40"))


def is_explained(finding):
    return any(
        finding.tool == row["tool"]
        and finding.what == row["what"]
        and fnmatchcase(finding.where, row["where"])
        for row in EXPLAINED
    )


@contextmanager
def season():
    """The invented season, served: its address, what `demo --json` told, its environment."""
    with tempfile.TemporaryDirectory(prefix="foreday-scan-") as folder:
        environment = environment_for(Path(folder) / "data")
        demo = json.loads(manage(environment, "demo", "--no-serve", "--json"))
        with serving(environment) as (site, log):
            yield site, demo, Path(folder)
            _well, fault, lines = log().partition("Traceback")
            if fault:
                sys.exit(f"scan: something fell in Foreday:\n{fault}{lines[:3000]}")


def scan_source():
    found, lines = bandit(*OURS)
    print(f"bandit: {lines} lines of {', '.join(OURS)}; {len(found)} findings")
    return found


def scan_paths():
    """As a stranger: what is typed by a guesser, and every file of the checkout and of the data."""
    with season() as (site, _demo, folder):
        listed = subprocess.check_output(["git", "ls-files"], cwd=ROOT, text=True).split("\n")
        data = folder / "data"
        kept = [str(path.relative_to(data)) for path in data.rglob("*")]
        typed = (HERE / "words.txt").read_text().split("\n")
        words = sorted({*typed, *listed, *kept, *(f"data/{each}" for each in kept)} - {""})
        found = ffuf(site, words, folder)
    print(f"ffuf: {len(words)} paths; {len(found)} are answered")
    return found


def scan_planted():
    port = free_port()
    site = f"http://127.0.0.1:{port}"
    with (
        tempfile.TemporaryDirectory() as folder,
        running([sys.executable, "-m", "tests.scan.planted", str(port)], port, folder=ROOT),
    ):
        found, _seen = wapiti(site, Path(folder), cookie=planted.COOKIE, attacks="xss,redirect,sql")
    missed = planted.HOLES - {each.what for each in found}
    if missed:
        raise BrokenScannerError(f"wapiti does not find what was planted: {', '.join(missed)}")
    print(f"wapiti: finds what was planted: {', '.join(sorted(planted.HOLES))}")


def scan_as(who, site, folder, **more):
    place = folder / who.replace(" ", "-")
    place.mkdir()
    began = time.monotonic()
    found, seen = wapiti(site, place, seconds=SECONDS, **more)
    names = {name_of(path) for _method, path in seen} - {None}
    print(f"wapiti as {who}: {len(seen)} requests to try, {len(names)} kinds of address, ", end="")
    print(f"{len(found)} findings, {time.monotonic() - began:.0f} s")
    return found, names


def name_of(path):
    with suppress(Resolver404):
        return resolve(path).url_name


def scan_pages():
    scan_planted()
    with season() as (site, demo, folder):
        owner, cookies = signed_in(site, demo["sign_in"])
        couple, couples_cookies = browser()
        couple.open(site + urlsplit(link_of(demo)).path)
        others = [row["id"] for row in demo["weddings"] if row["id"] != WEDDING]
        alike = [f"/{kind}/{each}/*" for each in others for kind in "wq"]
        # A stranger tries the sign-in too: that must not shut the photographer out.
        strange, first = scan_as("a stranger", site, folder)
        theirs, steps = scan_as(
            "a couple", site, folder, cookie=held(couples_cookies), start=f"/q/{WEDDING}/"
        )
        all_, pages = scan_as(
            "the owner",
            site,
            folder,
            cookie=held(cookies),
            left_out=[*NOT_ASKED, *alike],
            also=known_addresses(),
        )
        assert owner.open(f"{site}/studio", timeout=30).url == f"{site}/studio", "session ended"
        signed_in(site, demo["sign_in"])
    print("the photographer's session goes on, and a new one begins")
    if unseen := names_of_all() - first - steps - pages - NOT_LED_TO:
        raise BrokenScannerError(f"wapiti did not come to {', '.join(sorted(unseen))}")
    return [*strange, *theirs, *all_]


def names_of_all():
    from tests.test_access import TABLE  # reads models, so not before Django is there

    return set(TABLE)


def known_addresses():
    """Of every page that needs no more to be named than its wedding, led to or not."""
    for name in names_of_all():
        for args in ([], [WEDDING]):
            with suppress(NoReverseMatch):
                yield reverse(name, args=args)


def link_of(demo):
    return next(row["link"] for row in demo["weddings"] if row["id"] == WEDDING)


def held(cookies):
    return "; ".join(f"{each.name}={each.value}" for each in cookies)


SCANS = {"bandit": scan_source, "ffuf": scan_paths, "wapiti": scan_pages}


def main(wanted):
    found = [finding for name, scan in SCANS.items() if name in wanted for finding in scan()]
    unexplained = [finding for finding in found if not is_explained(finding)]
    print(f"{len(found)} findings, {len(unexplained)} of them not explained")
    if unexplained:
        sys.exit("\n".join(sorted({str(finding) for finding in unexplained})))


if __name__ == "__main__":
    os.environ["DJANGO_SETTINGS_MODULE"] = "studio.settings"
    django.setup()
    try:
        main(sys.argv[1:] or SCANS)
    except BrokenScannerError as error:
        sys.exit(f"scan: {error}")
