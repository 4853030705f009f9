"""The season on a real CalDAV server, and as a real client lists it.

A chain of programs that are not ours, on loopback: vdirsyncer 0.21.0 takes the season's file, or
fetches the season's address itself, puts it on radicale 3.9.0, fetches it from there again, and
khal 0.14.1 lists it. (What vdirsyncer fetches from an address gets UIDs of its own making.)
"""

import base64
import os
import subprocess
import urllib.request
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import icalendar
import pytest
from django.test import Client
from django.utils import timezone

from intake.models import Wedding
from planning.brief import load_brief
from planning.calendar_links import address_path
from planning.compute.day import plan_wedding
from planning.demo.load import load_season
from planning.given import TOLD_FOR
from planning.models import BlockDecision, CalendarAddress
from tests.conftest import owner
from tests.outside import outside
from tests.server import free_port, running

pytestmark = [
    pytest.mark.large,
    pytest.mark.django_db(transaction=True),
    pytest.mark.xdist_group("caldav"),
]
TODAY = date(2027, 1, 4)
SERVER = """[server]
hosts = 127.0.0.1:{port}
[auth]
type = none
[storage]
filesystem_folder = {folder}
[logging]
level = error
"""
SYNC = """[general]
status_path = "{folder}/status"
[pair file_up]
a = "file"
b = "server"
collections = null
conflict_resolution = "a wins"
partial_sync = "ignore"
[pair address_up]
a = "address"
b = "server"
collections = null
conflict_resolution = "a wins"
[pair down]
a = "server"
b = "phone"
collections = null
[storage file]
type = "singlefile"
read_only = true
path = "{folder}/season.ics"
[storage address]
type = "http"
url = "{address}"
[storage server]
type = "caldav"
url = "{server}/studio/season/"
username = "studio"
password = "any"
[storage phone]
type = "filesystem"
path = "{folder}/phone"
fileext = ".ics"
"""
SHOWN = """[calendars]
[[season]]
path = {folder}/phone
[locale]
local_timezone = Europe/London
default_timezone = Europe/London
timeformat = %H:%M
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
[sqlite]
path = {folder}/khal.db
"""


@dataclass
class Chain:
    """From the season's address to what a client shows, in a folder of its own."""

    folder: Path
    server: str
    programs: Path

    def run(self, program, *arguments):
        own = {"VDIRSYNCER_CONFIG": str(self.folder / "sync.conf"), "HOME": str(self.folder)}
        done = subprocess.run(
            [self.programs / program, *arguments],
            env=os.environ | own,
            capture_output=True,
            text=True,
            check=False,
            timeout=60,
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    def sync(self, source="file"):
        """Takes the season, and brings it to the phone by way of the server."""
        (address,) = CalendarAddress.objects.all()
        file = self.folder / "season.ics"
        file.write_bytes(Client().get(address_path(address)).content)
        for pair in (f"{source}_up", "down"):
            self.run("vdirsyncer", "discover", pair)
            self.run("vdirsyncer", "sync", pair)

    def listed(self, day, span="1d"):
        """What khal shows of a date, a line an entry: when, title."""
        look = ["-f", "{cancelled}{start-time} {title}", "-df", "## {date}"]
        shown = self.run("khal", "-c", self.folder / "khal.conf", "list", *look, str(day), span)
        by_day = {}
        for line in filter(None, shown.splitlines()):
            if line.startswith("## "):
                here = by_day.setdefault(line[3:], [])
            else:
                here.append(line)
        return by_day if span != "1d" else by_day.get(str(day), [])

    def ask(self, method):
        """What the server answers about its calendar; it believes any name."""
        name = {"Authorization": "Basic " + base64.b64encode(b"studio:any").decode()}
        there = f"{self.server}/studio/season/"
        with urllib.request.urlopen(
            urllib.request.Request(there, None, name, method=method), timeout=30
        ) as told:
            return told.read()

    def on_the_server(self):
        return icalendar.Calendar.from_ical(self.ask("GET")).walk("VEVENT")


@pytest.fixture
def chain(tmp_path, live_server, django_user_model):
    programs, port = outside("calendar/bin/radicale").parent, free_port()
    load_season(TODAY)
    address = CalendarAddress.objects.create(user=owner(django_user_model))
    server = f"http://127.0.0.1:{port}"
    texts = {"radicale.conf": SERVER, "sync.conf": SYNC, "khal.conf": SHOWN}
    known = {"port": port, "server": server, "address": live_server.url + address_path(address)}
    (tmp_path / "phone").mkdir()
    for name, text in texts.items():
        (tmp_path / name).write_text(text.format(folder=tmp_path, **known))
    command = [str(programs / "radicale"), "-C", str(tmp_path / "radicale.conf")]
    with running(command, port, dict(os.environ)):
        chain = Chain(tmp_path, server, programs)
        chain.ask("MKCALENDAR")
        yield chain


@pytest.fixture
def now(monkeypatch):
    """Sets the clock; it is the fourth of January 2027."""

    def set_clock(moment):
        monkeypatch.setattr(timezone, "now", lambda: moment)

    set_clock(datetime(2027, 1, 4, 8, tzinfo=ZoneInfo("UTC")))
    return set_clock


def given(chain):
    """The season's entries as they were taken, by UID."""
    data = (chain.folder / "season.ics").read_bytes()
    return {str(e["UID"]): e for e in icalendar.Calendar.from_ical(data).walk("VEVENT")}


def as_shown(event):
    """On which day khal should show an entry, on clocks in London, and how."""
    if not isinstance(event.start, datetime):
        return event.start, f" {event['SUMMARY']}"
    start = event.start.astimezone(ZoneInfo("Europe/London"))
    return start.date(), f"{start:%H:%M} {event['SUMMARY']}"


@pytest.fixture
def barn(chain, now):
    """A wedding of the season that has reached the phone; a day has gone by since."""
    chain.sync()
    now(timezone.now() + timedelta(days=1))
    return Wedding.objects.get(public_id="demo-orchard-barn")


@pytest.mark.parametrize("source", ["file", "address"])
def test_the_season_is_taken_by_the_server_and_listed_by_the_client(chain, now, source):
    chain.sync(source)
    planned, taken = given(chain), chain.on_the_server()
    whole = [(e["SUMMARY"], e.start, e.end) for e in planned.values()]
    assert sorted((e["SUMMARY"], e.start, e.end) for e in taken) == sorted(whole)
    shown = [as_shown(event) for event in planned.values()]
    days = {day for wedding in Wedding.objects.all() for day in wedding.dates}
    season = chain.listed(min(days), f"{(max(days) - min(days)).days + 1}d")
    for day in days:
        expected = sorted(line for on, line in shown if on == day)
        assert sorted(season[str(day)]) == expected


def test_a_block_that_moves_is_shown_at_its_new_time_and_once(chain, barn):
    (day,) = barn.days.all()
    vows = barn.moments.get(kind="ceremony")
    later = (datetime.combine(day.date, vows.at) + timedelta(minutes=5)).time()
    barn.moments.filter(pk=vows.pk).update(at=later)
    before = [line for line in chain.listed(day.date) if line.startswith(f"{vows.at:%H:%M}")]
    chain.sync()
    shown = chain.listed(day.date)
    (moved,) = [f"{later:%H:%M}{line[5:]}" for line in before if "ceremony" in line.casefold()]
    assert shown.count(moved) == 1
    assert not set(before) & set(shown)
    assert len(chain.on_the_server()) == len(given(chain))


def test_a_block_that_is_left_out_is_marked_as_cancelled_and_goes_after_a_month(chain, barn, now):
    (day,) = barn.days.all()
    blocks = plan_wedding(load_brief(barn)).days[0].blocks
    party = next(block for block in blocks if block.kind == "portraits")
    before = chain.listed(day.date)
    BlockDecision.objects.create(day=day, key=party.key, left_out=True)
    chain.sync()
    title = f"{party.title}: {barn.names}"
    told = [line for line in chain.listed(day.date) if title in line]
    assert [line for line in before if title in line]
    assert [line[:10] for line in told] == ["CANCELLED "] * len(told)
    assert told
    now(timezone.now() + TOLD_FOR)
    chain.sync()
    assert not [line for line in chain.listed(day.date) if title in line]
    on_the_server = [str(event["UID"]) for event in chain.on_the_server()]
    assert sorted(on_the_server) == sorted(given(chain))
