"""How long answers are kept: said to couples, reminded of on Season, and done by a command."""

import io
import json
import os
from calendar import monthrange
from datetime import UTC, date, datetime, timedelta

import pytest
from dateutil.relativedelta import relativedelta
from django.core.management import CommandError, call_command
from django.utils import timezone
from hypothesis import given, settings
from hypothesis import strategies as st

from intake.models import Day, Partner, Wedding
from intake.store import put, store
from planning import retention
from planning.clock_sense import NOTE
from planning.retention import due_by, months_after, reminders, undated
from studio.models import Studio
from studio.words import KEPT, calendar_date, kept_for
from tests.page import Page, fields, said

LAST = date(2027, 6, 12)  # of the wedding of all tests
YEAR_ON = date(2028, 6, 12)
BOOKING = "/w/thora-lukasz/booking"
BOOKED = datetime(2019, 1, 1, 12, tzinfo=UTC)  # long before, whenever this is run


def booked_long_ago():
    Wedding.objects.update(created_at=BOOKED)


@pytest.fixture
def wedding(wedding):
    booked_long_ago()
    return wedding


@pytest.fixture
def other(other):
    booked_long_ago()
    return other


@pytest.fixture
def leaps(monkeypatch, settings, tmp_path):
    settings.DATA_DIR = tmp_path

    def set_clock(day):
        moment = datetime(day.year, day.month, day.day, 12, tzinfo=UTC)
        monkeypatch.setattr(timezone, "now", lambda: moment)

    return set_clock


@pytest.fixture
def on(leaps, settings):
    """A day, and the night before it all was in order."""

    def set_clock(day):
        leaps(day)
        (settings.DATA_DIR / NOTE).write_text((day - timedelta(1)).isoformat())

    set_clock(YEAR_ON)
    return set_clock


def command(**options):
    out = io.StringIO()
    call_command("retention", stdout=out, json=True, **options)
    return json.loads(out.getvalue())


@given(st.dates(date(1900, 1, 1), date(2200, 1, 1)), st.integers(1, 120))
@settings(max_examples=200, deadline=None)
def test_months_are_counted_as_dateutil_counts_them(day, months):
    assert months_after(day, months) == day + relativedelta(months=months)


def test_a_month_that_is_too_short_ends_on_its_last_day():
    assert months_after(date(2028, 1, 31), 1) == date(2028, 2, monthrange(2028, 2)[1])


@pytest.mark.parametrize(("today", "found"), [(YEAR_ON - timedelta(1), 0), (YEAR_ON, 1)])
def test_a_wedding_is_due_on_the_day_and_not_before(wedding, today, found):
    assert len(due_by(today, Studio(keep_months=12))) == found


def test_the_last_of_several_days_counts(wedding):
    Day.objects.create(wedding=wedding, date=date(2027, 6, 14))
    assert due_by(date(2028, 6, 13), Studio()) == []
    assert [each.last for each in due_by(date(2028, 6, 14), Studio())] == [date(2027, 6, 14)]


@pytest.mark.parametrize("months", [1, 7, 12, 30])
def test_nothing_is_missed_by_the_way_it_is_looked_up(db, months):
    """Days of a whole leap year, one wedding each, against counting them one by one."""
    days = [date(2027, 12, 1) + timedelta(n) for n in range(0, 420, 3)]
    weddings = Wedding.objects.bulk_create(Wedding(public_id=f"w{n}") for n in range(len(days)))
    booked_long_ago()
    Day.objects.bulk_create(Day(wedding=w, date=d) for w, d in zip(weddings, days, strict=True))
    until = date(2029, 3, 31)
    wanted = {d for d in days if d + relativedelta(months=months) <= until}
    assert {due.last for due in due_by(until, Studio(keep_months=months))} == wanted


def test_a_year_that_the_couple_mistype_erases_nothing_that_season_has_not_told_of(
    couple, wedding, on
):
    """2026 for 2028, ten months before the day: a line of Season for thirty days, no less."""
    Day.objects.update(date=date(2028, 6, 12))
    on(date(2027, 8, 1))
    page = fields(couple, "/q/thora-lukasz/step/day") | {"do": "save"}
    couple.post("/q/thora-lukasz/step/day", page | {"days-0-date": "12 June 2026"})
    assert Day.objects.get().date == date(2026, 6, 12)
    assert command(erase=True)["erased"] == []
    assert [line.by for line in reminders(Studio())["to_erase"]] == [date(2027, 8, 31)]
    on(date(2027, 8, 30))
    assert command(erase=True)["erased"] == []
    on(date(2027, 8, 31))
    assert command(erase=True)["erased"] == ["thora-lukasz"]


@pytest.mark.parametrize(("days", "refused"), [(0, True), (2, False)])
def test_a_year_that_the_photographer_mistypes_is_told_beside_it_and_not_kept(
    photographer, wedding, days, refused
):
    """Nothing of theirs would be told of for thirty days: the couple may be silent for months."""
    day = retention.today_of(Studio()) - relativedelta(months=12) + timedelta(days)
    page = fields(photographer, BOOKING) | {"days-0-date": f"{day:%d %B %Y}", "first": "Þóra Jóns"}
    response = photographer.post(BOOKING, page)
    assert (response.status_code == 200, Day.objects.get().date == LAST) == (refused, refused)
    if refused:
        assert "Look at the year" in said(response)
        kept = Page(response).fields
        assert kept["days-0-date"] == [page["days-0-date"]]
        assert kept["first"] == ["Þóra Jóns"]


def test_the_booking_of_a_wedding_that_is_over_is_kept_when_its_day_is_left_as_it_is(
    photographer, wedding
):
    Day.objects.update(date=date(2020, 6, 12))
    page = fields(photographer, BOOKING) | {"first": "Þóra Jóns"}
    assert photographer.post(BOOKING, page).status_code == 302
    assert Partner.objects.filter(name="Þóra Jóns").exists()


def test_months_are_never_counted_from_before_a_wedding_was_entered(wedding, on):
    """As after a slip of the photographer's, while the couple are silent."""
    Wedding.objects.update(created_at=datetime(2027, 1, 31, 12, tzinfo=UTC))
    Day.objects.update(date=date(2017, 6, 12))
    assert due_by(date(2028, 1, 30), Studio()) == []
    assert [each.by for each in due_by(date(2028, 1, 31), Studio())] == [date(2028, 1, 31)]


def test_what_a_clock_wrote_that_was_ahead_keeps_nothing_for_longer(wedding, on):
    ahead = datetime(2038, 1, 1, tzinfo=UTC)
    Wedding.objects.update(created_at=ahead, sent_at=ahead)
    wedding.steps.create(slug="couple", saved_at=ahead)
    assert command(erase=True)["erased"] == ["thora-lukasz"]


def test_looking_erases_nothing_and_says_so(wedding, on):
    assert command()["due"] == [
        {"wedding": "thora-lukasz", "last": "2027-06-12", "by": "2028-06-12"}
    ]
    out = io.StringIO()
    call_command("retention", stdout=out)
    assert "thora-lukasz: last day 2027-06-12, to be erased by 2028-06-12" in out.getvalue()
    assert "only a look" in out.getvalue()
    assert "Łukasz" not in out.getvalue()
    assert Wedding.objects.filter(pk=wedding.pk).exists()


def test_erasing_takes_what_is_due_and_nothing_else_and_twice_is_once(wedding, other, on):
    assert command(erase=True)["erased"] == ["thora-lukasz"]
    assert [each.public_id for each in Wedding.objects.all()] == ["wanjiru-odon"]
    again = command(erase=True)
    assert (again["due"], again["erased"], again["failed"]) == ([], [], [])


def test_another_length_of_time_is_the_studios_to_choose(wedding, on):
    Studio.objects.create(name="S", keep_months=13)
    assert command(erase=True)["erased"] == []
    Studio.objects.update(keep_months=11)
    assert command(erase=True)["erased"] == ["thora-lukasz"]


def test_too_many_at_once_are_a_wrong_clock_until_somebody_says_otherwise(wedding, on):
    with pytest.raises(CommandError, match="Look at the clock") as refused:
        command(erase=True, most=0)
    assert refused.value.returncode == 2
    assert Wedding.objects.filter(pk=wedding.pk).exists()


def test_a_clock_that_leapt_erases_nothing_until_somebody_says_that_it_is_right(wedding, leaps):
    leaps(YEAR_ON - timedelta(20))
    assert command(erase=True, today="2028-05-23")["erased"] == []  # the last night that was right
    ten_years_on = YEAR_ON.replace(year=2038)
    leaps(ten_years_on)
    for claimed in (None, "2028-05-24"):
        with pytest.raises(CommandError, match="the clock says 2038-06-12") as refused:
            command(erase=True, today=claimed)
        assert refused.value.returncode == 2
    assert Wedding.objects.filter(pk=wedding.pk).exists()
    assert command(erase=True, today="2038-06-12")["erased"] == ["thora-lukasz"]


def test_nights_that_were_missed_are_no_leap_and_a_clock_set_back_is_none(wedding, leaps):
    leaps(YEAR_ON - timedelta(29))
    command(erase=True, today="2028-05-14")
    leaps(date(1970, 1, 1))
    assert command(erase=True)["erased"] == []
    leaps(YEAR_ON)
    assert command(erase=True)["erased"] == ["thora-lukasz"]


def test_the_first_night_is_compared_with_when_anybody_was_last_here(wedding, leaps):
    leaps(YEAR_ON)
    Wedding.objects.update(created_at=timezone.now() - timedelta(399), sent_at=None)
    with pytest.raises(CommandError, match="the last that is known here is of 2027-05-10"):
        command(erase=True)
    wedding.steps.create(slug="couple", saved_at=timezone.now() - timedelta(30))
    assert command(erase=True)["erased"] == ["thora-lukasz"]


def test_a_leap_with_nothing_due_is_asked_about_when_there_is_something_to_lose(wedding, leaps):
    leaps(LAST)
    command(erase=True, today="2027-06-12")
    leaps(YEAR_ON - timedelta(1))
    assert command(erase=True)["erased"] == []
    leaps(YEAR_ON)
    with pytest.raises(CommandError, match="the last that is known here is of 2027-06-12"):
        command(erase=True)


def test_a_wedding_without_a_date_is_named_and_never_erased(wedding, on):
    wedding.days.all().delete()
    Wedding.objects.update(created_at=datetime(2027, 1, 1, tzinfo=UTC))
    assert [each.public_id for each in undated(Studio())] == ["thora-lukasz"]
    report = command(erase=True)
    assert (report["undated"], report["erased"]) == (["thora-lukasz"], [])
    on(date(2027, 12, 1))
    assert command()["undated"] == []


def test_one_that_cannot_be_erased_keeps_no_other(wedding, other, on, kept_files, monkeypatch):
    on(date(2029, 1, 1))
    put((b"large", b"small", (60, 40)), "thora-lukasz", "d")
    delete = type(store()).delete

    def refuse(self, name):
        if name.startswith("thora"):
            raise OSError(30, "Read-only file system")
        delete(self, name)

    monkeypatch.setattr(type(store()), "delete", refuse)
    with pytest.raises(CommandError, match="thora-lukasz: A picture could not be removed"):
        command(erase=True)
    assert [each.public_id for each in Wedding.objects.all()] == ["thora-lukasz"]


def test_files_of_no_wedding_go_unless_they_have_just_come(wedding, kept_files, on):
    on(LAST)
    old = put((b"large", b"small", (60, 40)), "gone", "d")
    new = put((b"large", b"small", (60, 40)), "coming", "d")
    ours = put((b"large", b"small", (60, 40)), "thora-lukasz", "d")
    for kept, days in ((old, 3), (new, 0), (ours, 3)):
        at = (timezone.now() - timedelta(days)).timestamp()
        for name in (kept.name, kept.small):
            os.utime(store().path(name), (at, at))
    assert command(erase=True)["stray_files"] == 2
    assert sorted(kept_files()) == sorted([new.name, new.small, ours.name, ours.small])


def test_season_reminds_of_it_a_month_ahead_and_leads_an_owner_there(photographer, wedding):
    """The wedding moves and the clock does not, which would end the sign-in."""
    today = retention.today_of(Studio())

    def ends(by):
        Day.objects.update(date=by - relativedelta(months=12))
        by = months_after(Day.objects.get().date, 12)
        return calendar_date(by), photographer.get("/")

    assert "promised to erase" not in said(ends(today + timedelta(33))[1])
    day, page = ends(today + timedelta(28))
    assert f"Answers that you promised to erase: Þóra & Łukasz, by {day}" in said(page)
    assert 'href="/w/thora-lukasz/erase"' in page.content.decode()
    day, page = ends(today - timedelta(2))
    assert f"was due by {day}" in said(page)
    assert f"its answers to be erased by {day}" in said(photographer.get("/?past"))


def test_season_shows_a_few_and_counts_the_rest(wedding, on, django_assert_num_queries):
    for number in range(7):
        each = Wedding.objects.create(public_id=f"w{number}")
        Day.objects.create(wedding=each, date=LAST)
        Partner.objects.create(wedding=each, name="Ana", key="a")
    booked_long_ago()
    with django_assert_num_queries(3):
        lines, more = reminders(Studio()).values()
        assert [line.wedding.names for line in lines][1:] == ["Ana"] * 4
    assert (len(lines), more) == (retention.SHOWN, 3)


@pytest.mark.parametrize("months", [1, 6, 24])
def test_couples_read_the_time_that_was_chosen(couple, wedding, months):
    Studio.objects.create(name="S", keep_months=months)
    page = said(couple.get("/q/thora-lukasz/"))
    assert f"{months} month{'s' if months > 1 else ''} after the day we delete" in page
    assert "A year after" not in page


def test_the_words_follow_the_time_unless_they_are_the_studios_own(photographer, wedding):
    page = fields(photographer, "/studio") | {"name": "Marigold Lane"}
    assert page["keep_months"] == ["12"]
    assert page["keeps"] == [str(KEPT)]
    photographer.post("/studio", page | {"keep_months": "6"})
    studio = Studio.objects.get()
    assert (studio.keeps, studio.what_is_kept) == ("", kept_for(6))
    photographer.post("/studio", page | {"keep_months": "6", "keeps": "Until spring."})
    assert Studio.objects.get().what_is_kept == "Until spring."


@pytest.mark.parametrize("months", ["0", "121", "", "x"])
def test_a_time_that_is_none_is_told_beside_its_box(photographer, wedding, months):
    page = fields(photographer, "/studio") | {"name": "Marigold Lane", "keep_months": months}
    answer = photographer.post("/studio", page)
    assert answer.status_code == 200
    assert 'href="#id_keep_months"' in answer.content.decode()
