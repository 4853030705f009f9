"""The ready list in the day pack, at the meeting and on its agenda."""

from datetime import UTC, datetime, timedelta

from django.utils import timezone

from intake.models import Day, Wedding
from planning.models import ReadyItem, ReadyTick
from planning.paper.parts import parts_of
from planning.paper.ready import ready
from planning.paper.sheets import BY_KEY
from planning.paper.subject import subject_of
from planning.pdf import paper_html
from tests.page import Page, said


def soon(wedding, days=2):
    wedding.days.update(date=timezone.localdate() + timedelta(days=days))
    Wedding.objects.update(created_at=datetime(2020, 1, 1, tzinfo=UTC))
    return wedding


def printed(wedding):
    """How many are open from the weeks before, and the lines of the days with their boxes."""
    page = ready(subject_of(wedding), None)
    return page["once"], {line.title: len(line.boxes) for line in page["lines"]}


def test_the_day_pack_has_the_evening_the_morning_and_the_night(wedding):
    once, lines = printed(soon(wedding))
    assert once > 10
    titles = list(lines)
    assert titles[0] == "Forecast read, rain or heat decided"
    assert titles[-2].startswith("Two copies of every card")
    assert "Contract signed, and a copy to hand" not in titles
    assert "ready" in [part.key for part in parts_of("day-pack")]


def test_what_is_ticked_is_not_on_it_any_more(wedding):
    before, _lines = printed(soon(wedding))
    for key in ("contract", f"alarm.{wedding.days.get().key}"):
        ReadyTick.objects.create(wedding=wedding, key=key, state="done", at=timezone.now())
    after, lines = printed(wedding)
    assert after == before - 1
    assert "Alarm set, and a second one" not in lines


def test_two_days_have_a_box_each(wedding):
    first = soon(wedding).days.get()
    Day.objects.create(wedding=wedding, date=first.date + timedelta(days=1), key="d2")
    assert printed(wedding)[1]["Bag packed and counted"] == 2
    ReadyTick.objects.create(
        wedding=wedding, key=f"bag.{first.key}", state="done", at=timezone.now()
    )
    assert printed(wedding)[1]["Bag packed and counted"] == 1


def test_the_meeting_asks_for_what_is_settled_at_the_table(photographer, wedding):
    item = ReadyItem.objects.create(title="Deposit paid", days=60)
    page = Page(photographer.get("/w/thora-lukasz/meeting"))
    words = " ".join(page.words.split())
    assert "On the ready list: Contract signed, and a copy to hand" in words
    assert "On the ready list: Deposit paid" in words
    assert f"/w/thora-lukasz/ready#line-own-{item.key}" in page.links
    assert "On the ready list: Alarm set" not in words
    ReadyTick.objects.create(wedding=wedding, key="contract", state="done", at=timezone.now())
    words = said(photographer.get("/w/thora-lukasz/meeting"))
    assert "On the ready list: Contract signed" not in words


def test_the_agenda_has_it_too(wedding):
    html = paper_html(subject_of(wedding), BY_KEY["agenda"])
    assert "On the ready list: Contract signed" in html
