"""Changes and state in words."""

from dataclasses import replace
from datetime import datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from intake.models import Moment
from planning.agreed_words import about, pack_state, people_of, span, state_line
from planning.agreements import standing
from planning.change_words import LABELS, SAID, changed
from planning.compute.agreed import AgreedGroup, AgreedTime
from planning.compute.agreed_changes import PLANNED_MAY_MOVE, Change
from planning.models import Agreement

from .agreed import agreed, plan_of, shared

TIME = AgreedTime(
    "k",
    "d",
    "dance",
    "First dance",
    "2027-06-12T20:32+01:00",
    "2027-06-12T20:48+01:00",
    False,
    "",
    90,
)
FIXED = replace(TIME, at="2027-06-12T21:01+01:00", fixed=True)
GROUP = AgreedGroup("g", "Cousins", 3.5, True, ("Ana", "Bo"), 2, False)


@given(st.datetimes(datetime(2027, 1, 1), datetime(2027, 12, 31)), st.integers(-120, 120))
def test_a_planned_time_that_counts_as_moved_reads_as_another(start, minutes):
    start = start.replace(second=0, microsecond=0)  # blocks stand on whole minutes
    assert int(about(start)[-1]) % 5 == 0
    if minutes % (24 * 60) and abs(minutes) >= PLANNED_MAY_MOVE:
        assert about(start) != about(start + timedelta(minutes=minutes))


@pytest.mark.parametrize(
    ("at", "words"),
    [
        ("20:32", "20:30"),
        ("20:33", "20:35"),
        ("20:30", "20:30"),
        ("23:58", "00:00"),
        ("00:02", "00:00"),
    ],
)
def test_a_planned_time_is_said_to_the_nearest_five_minutes(at, words):
    assert about(datetime.fromisoformat(f"2027-06-12T{at}")) == words


def test_a_fixed_time_is_said_to_the_minute():
    assert span(TIME) == "about 20:30 to 20:50"
    assert span(FIXED) == "21:01 to about 20:50"


def test_who_is_in_a_group_is_said_with_those_whom_nobody_names():
    assert people_of(GROUP) == "Ana, Bo, 2 more"
    assert people_of(replace(GROUP, people=(), everyone=True, more=80)) == "everybody"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (Change("names", "", ("Ana",), ("Ana", "Bo")), "Names: Ana & Bo (before: Ana)"),
        (Change("day", "Friday", None, "2027-06-11"), "Friday, a day: now Friday 11 June 2027"),
        (
            Change("date", "", "2027-06-12", "2027-06-13"),
            "Date: Sunday 13 June 2027 (before: Saturday 12 June 2027)",
        ),
        (
            Change("hours", "", ("10:00", "22:00"), ("10:00", "")),
            "Booked hours: 10:00–? (before: 10:00–22:00)",
        ),
        (Change("place", "Mill", "Mill", None), "Place: no longer Mill"),
        (Change("wet_plan", "Mill", "", "The loft"), "Mill, if it rains: now The loft"),
        (
            Change("time", "First dance", TIME, FIXED),
            "First dance: 21:01 to about 20:50 (before: about 20:30 to 20:50)",
        ),
        (Change("time", "Cake", None, TIME), "New in the day: Cake, about 20:30 to 20:50"),
        (Change("time", "Cake", TIME, None), "No longer in the day: Cake, about 20:30 to 20:50"),
        (
            Change("sure", "Toasts", 90, 0),
            "Toasts, in time: hardly ever (before: on at least 90 days of 100)",
        ),
        (Change("group", "Cousins", None, GROUP), "New group: Cousins"),
        (Change("group", "Cousins", GROUP, None), "No longer among the groups: Cousins"),
        (
            Change("group_people", "Cousins", (("Ana", "Bo"), 2, False), (("Ana", "Cy"), 5, False)),
            "Cousins: now with Cy; now without Bo; 5 people more, was 2",
        ),
        (
            Change("group_minutes", "Cousins", 3.5, 4.0),
            "Cousins, length: 4 min (before: 3.5 min)",
        ),
        (Change("group_must", "Cousins", True, False), "Cousins: now only if there is time"),
        (Change("order", "", ["A", "B"], ["B", "A"]), "The groups come in another order: B, A"),
        (Change("wish", "", "The belt", None), "A photograph you want: no longer The belt"),
        (Change("wish_kind", "The belt", "", "meal"), "The belt, when: now Meal"),
        (
            Change("note", "Mill", "No flash", "Flash is fine"),
            "Mill, note: Flash is fine (before: No flash)",
        ),
        (
            Change("holds", "", "holds", "short"),
            "The day does not fit as it stands: its times are to be settled again",
        ),
    ],
)
def test_a_change_is_one_sentence(change, words):
    assert changed(change) == words


def test_a_percent_sign_in_an_answer_is_only_a_percent_sign():
    assert (
        changed(Change("address", "50 %(now)s", "", "%s %d %"))
        == "50 %(now)s, address: now %s %d %"
    )


def test_every_kind_of_change_has_its_words():
    import inspect
    import re

    from planning.compute import agreed_changes

    source = inspect.getsource(agreed_changes)
    whats = set(re.findall(r'(?:_field|Change)\(\s*"(\w+)"', source)) | {"address", "wet_plan"}
    assert whats
    assert not whats - LABELS.keys() - SAID.keys()


def test_the_state_is_one_line_at_every_stage(timed):
    def line():
        return state_line(standing(timed))

    assert line() == "Nothing agreed in writing yet."
    assert pack_state(plan_of(timed)) == ""
    shared(timed)
    Agreement.objects.update(shared_at="2027-05-10T22:30:00Z")  # the 10th in London still
    assert line() == "Version 1 shared 10 May 2027, not confirmed yet."
    Moment.objects.filter(kind="dance").update(at=time(20, 31))
    assert line() == "Version 1 shared 10 May 2027, not confirmed yet, 1 change since."
    agreed(timed)
    Agreement.objects.update(confirmed_at="2027-05-12T23:30:00Z")  # the 13th in London
    Agreement.objects.filter(number=1).update(confirmed_at=None)
    assert line() == "Agreed 13 May 2027, nothing changed since."
    Moment.objects.filter(kind="dance").update(at=time(20, 30))
    timed.places.update(wet_plan="Cart shed")
    assert line() == "Agreed 13 May 2027, 2 changes since."
    assert pack_state(plan_of(timed)) == line()
    shared(timed)
    Agreement.objects.filter(number=3).update(shared_at="2027-05-20T12:00:00Z")
    assert line() == (
        "Agreed 13 May 2027, 2 changes since, version 3 shared 20 May 2027, not confirmed yet."
    )
    Agreement.objects.filter(number=2).update(digest="0" * 64)
    assert line().endswith("but what is kept is not what was shared.")
    assert line().startswith("Agreed 13 May 2027, version 3")
