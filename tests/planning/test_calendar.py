"""`manage.py calendar`: what it prints, and how it fails."""

import json
import os
import subprocess
import sys
from datetime import UTC, date, datetime, time

import icalendar
import pytest
from django.core.management import ManagementUtility, call_command

from intake.models import Day, Moment, Partner, Place, Wedding
from planning.brief import load_brief
from planning.models import Decisions, Drive, Hours


@pytest.fixture
def wedding(db):
    wedding = Wedding.objects.create(zone="Europe/Berlin", answers_due=date(2027, 4, 1))
    for position, name in enumerate(("Łukasz Žáček", "Þóra O'Neill")):
        Partner.objects.create(wedding=wedding, name=name, position=position)
    day = Day.objects.create(wedding=wedding, date=date(2027, 6, 12))
    Hours.objects.create(day=day, starts=time(10), ends=time(23))
    mill = Place.objects.create(wedding=wedding, name="Halvorsen Mill", uses=["ceremony", "meal"])
    Moment.objects.create(wedding=wedding, day=day, kind="ceremony", at=time(14), place=mill)
    Drive.objects.create(wedding=wedding, destination=mill, map_minutes=30)
    Decisions.objects.create(
        wedding=wedding,
        meeting_at=datetime(2027, 1, 20, 17, tzinfo=UTC),
        visit_at=datetime(2027, 6, 1, 15, 30, tzinfo=UTC),
    )
    return wedding


def run(*arguments):
    """As the shell would: the exit code, 0 when the command returns."""
    try:
        ManagementUtility(["manage.py", "calendar", *map(str, arguments)]).execute()
    except SystemExit as end:
        return end.code
    return 0


def test_the_file_has_the_ceremony_the_drive_and_the_appointments(wedding, tmp_path, capsys):
    out = tmp_path / "day.ics"
    assert run(wedding.public_id, "--out", out, "--json") == 0
    report = json.loads(capsys.readouterr().out)
    events = icalendar.Calendar.from_ical(out.read_bytes()).walk("VEVENT")
    starts = {str(event["SUMMARY"]): event.start for event in events}
    assert report == {"wedding": wedding.public_id, "out": str(out), "events": len(events)}
    assert starts["Ceremony: Łukasz & Þóra"].isoformat() == "2027-06-12T14:00:00+02:00"
    assert starts["Planning meeting: Łukasz & Þóra"].isoformat() == "2027-01-20T18:00:00+01:00"
    assert starts["Venue visit: Łukasz & Þóra"].isoformat() == "2027-06-01T17:30:00+02:00"
    assert starts["Answers due: Łukasz & Þóra"] == date(2027, 4, 1)
    drive = starts["Drive to Halvorsen Mill: Łukasz & Þóra"]
    assert starts["Leave home: Łukasz & Þóra"] == drive


def test_two_runs_write_the_same_bytes(wedding, tmp_path):
    for name in ("a.ics", "b.ics"):
        call_command("calendar", wedding.public_id, out=tmp_path / name)
    assert (tmp_path / "a.ics").read_bytes() == (tmp_path / "b.ics").read_bytes()


def test_a_wedding_without_decisions_has_no_appointments(wedding):
    wedding.decisions.delete()
    brief = load_brief(wedding)
    assert brief.meeting_at is None
    assert brief.visit_at is None


@pytest.mark.django_db
def test_an_unknown_wedding_ends_with_2_and_one_line(tmp_path, capsys):
    assert run("nobody", "--out", tmp_path / "day.ics") == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.count("\n") == 1
    assert "nobody" in printed.err
    assert not (tmp_path / "day.ics").exists()


@pytest.mark.parametrize("name", [".", "missing/day.ics"])
def test_a_file_that_cannot_be_written_ends_with_2_and_one_line(wedding, tmp_path, capsys, name):
    out = tmp_path / name
    assert run(wedding.public_id, "--out", out) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.count("\n") == 1
    assert str(out) in printed.err


def test_a_machine_without_a_database_ends_with_2_and_one_line(tmp_path):
    env = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    done = subprocess.run(
        [sys.executable, "manage.py", "calendar", "nobody", "--out", tmp_path / "day.ics"],
        env=env | {"FOREDAY_DATA": str(tmp_path)},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert done.stderr == "CommandError: There is no database yet: run migrate, or demo.\n"
