"""The ready list: what is due when, what the app knows by itself, and what is told calmly."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from planning.compute.ready import ready_list
from planning.compute.ready_items import ITEMS
from planning.compute.ready_values import Due, Item

from .readies import BOOKED, POLICIES, julian_day_number, ready_brief, ticks

JUNE = date(2027, 6, 12)
NEXT = date(2027, 6, 13)
LONG_BEFORE = datetime(2026, 1, 10, 12, tzinfo=UTC)
ONCE = {item.key for item in ITEMS if item.due.when == "before"}
WHOLE = {
    "groups": 6, "helpers": ("Tomasz Bąk",), "second": True, "coordinators": ("Ríona Achebe",),
}  # fmt: skip


def at(*when):
    return datetime(*when, tzinfo=UTC)


def marks(ready):
    return {entry.key: entry.mark for entry in ready.entries}


def keys(entries):
    return [entry.key for entry in entries]


def test_everything_the_studio_needs_is_on_the_list_in_the_order_it_is_due():
    ready = ready_list(ready_brief(JUNE, **WHOLE), LONG_BEFORE)
    listed = keys(ready.entries)
    for key in (
        "contract", "consent", "sent", "answered", "meeting", "groups", "helpers", "visit",
        "coordinator", "second", "stand-in", "clocks.d1", "cards.d1", "batteries.d1", "beep.d1",
        "raw.d1", "bag.d1", "clothes.d1", "food.d1", "car.d1", "route.d1", "alarm.d1",
        "copies.d1", "elsewhere.d1", "insurance-liability",
    ):  # fmt: skip
        assert key in listed
    dues = [entry.due for entry in ready.entries]
    assert dues == sorted(dues)
    assert listed[0] == "contract"
    assert listed[-1] == "elsewhere.d1"


def test_what_does_not_apply_is_not_listed():
    listed = keys(ready_list(ready_brief(JUNE), LONG_BEFORE).entries)
    assert not {"groups", "helpers", "second", "abroad", "insurance-travel"} & set(listed)


def test_a_wedding_abroad_asks_for_papers_and_for_insurance_there():
    kinds = frozenset({"liability", "travel"})
    fields = {"zone": "Europe/Oslo", "countries": frozenset({"NO"}), "kinds": kinds}
    listed = keys(ready_list(ready_brief(JUNE, **fields), LONG_BEFORE).entries)
    assert "abroad" in listed
    assert "insurance-travel" in listed
    assert "insurance-equipment" not in listed


def test_each_day_has_its_own_evening_morning_and_night():
    ready = ready_list(ready_brief(JUNE, NEXT), LONG_BEFORE)
    listed = keys(ready.entries)
    for item in ITEMS:
        if item.due.when != "before":
            assert {f"{item.key}.d1", f"{item.key}.d2"} <= set(listed)
    assert len(listed) == len(set(listed))


def test_a_tick_says_by_whom_and_stays_when_a_day_is_added_before_it():
    brief = ready_brief(NEXT, ticks=ticks("contract", "bag.d1"))
    before = replace(brief, days=(*ready_brief(JUNE).days, *brief.days))
    first = replace(before.days[0], key="d0")
    ready = ready_list(replace(before, days=(first, *before.days[1:])), LONG_BEFORE)
    assert ready.entry("bag.d1").tick.by == "marigold"
    assert ready.entry("bag.d0").mark == "later"
    assert ready.entry("contract").mark == "done"


def test_not_needed_here_is_not_open_and_not_done():
    ready = ready_list(ready_brief(JUNE, ticks=ticks("visit", state="not_needed")), LONG_BEFORE)
    assert ready.entry("visit").mark == "not_needed"
    assert not ready.entry("visit").is_open


def test_what_is_near_is_told_apart_from_what_is_far():
    brief = ready_brief(JUNE)  # bag at 20:00 on the 11th, 19:00 UTC
    assert marks(ready_list(brief, at(2027, 6, 1, 12)))["bag.d1"] == "later"
    assert marks(ready_list(brief, at(2027, 6, 5, 12)))["bag.d1"] == "week"
    assert marks(ready_list(brief, at(2027, 6, 11, 18, 59)))["bag.d1"] == "today"
    assert marks(ready_list(brief, at(2027, 6, 11, 19)))["bag.d1"] == "late"
    assert marks(ready_list(brief, at(2027, 6, 12, 21, 30)))["bag.d1"] == "passed"  # it is over


def test_today_is_the_weddings_own_today():
    """At 11:30 UTC on the 11th it is 23:30 there, and the 12th an hour later."""
    brief = ready_brief(JUNE, zone="Pacific/Auckland", hours="16:00-22:00")
    dawn = at(2027, 6, 11, 11, 30)
    assert marks(ready_list(brief, dawn))["route.d1"] == "week"
    assert marks(ready_list(brief, dawn + timedelta(hours=1)))["route.d1"] == "today"


def test_a_wedding_tomorrow_that_was_booked_today_is_late_with_nothing():
    booked = at(2027, 6, 11, 11)
    brief = ready_brief(JUNE, booked_at=booked)
    ready = ready_list(brief, booked + timedelta(minutes=5))
    found = marks(ready)
    assert "late" not in found.values()
    assert {key for key, mark in found.items() if mark == "now"} == {
        "contract", "sent", "answered", "meeting", "stand-in", "consent", "coordinator",
        "visit", "final-word", "day-pack",
    }  # fmt: skip
    assert found["bag.d1"] == found["alarm.d1"] == "today"
    assert found["copies.d1"] == "week"


def test_the_grace_of_a_late_booking_ends_on_the_next_evening_or_the_morning_itself():
    brief = ready_brief(JUNE, booked_at=at(2027, 6, 1, 9))
    assert marks(ready_list(brief, at(2027, 6, 2, 16, 59)))["contract"] == "now"
    assert marks(ready_list(brief, at(2027, 6, 2, 17)))["contract"] == "late"  # 18:00 in London
    tomorrow = ready_brief(JUNE, booked_at=at(2027, 6, 11, 20))
    assert marks(ready_list(tomorrow, at(2027, 6, 12, 6, 59)))["contract"] == "now"
    assert marks(ready_list(tomorrow, at(2027, 6, 12, 7)))["contract"] == "late"


def test_a_wedding_tomorrow_with_nothing_ticked_has_everything_due_and_nothing_passed():
    ready = ready_list(ready_brief(JUNE, **WHOLE), at(2027, 6, 11, 20, 30))
    found = marks(ready)
    assert all(found[key] in {"late", "done"} for key in ONCE & found.keys())
    assert "passed" not in found.values()
    assert "later" not in found.values()


def test_a_wedding_in_three_years_waits_in_peace_and_is_dated_over_the_leap_day():
    """Judged by day numbers: 84 days before 1 May 2029 and, over 29 February, 1 May 2028."""
    for wedding in (date(2029, 5, 1), date(2028, 5, 1)):
        ready = ready_list(ready_brief(wedding, policies=()), LONG_BEFORE)
        assert {entry.mark for entry in ready.entries} == {"later"}
        first = ready.entries[0].due.date()
        gone = julian_day_number(*wedding.timetuple()[:3]) - julian_day_number(
            *first.timetuple()[:3]
        )
        assert gone == 84


def test_of_a_wedding_in_the_past_only_the_copies_are_still_asked():
    ready = ready_list(ready_brief(JUNE, policies=()), at(2027, 7, 1))
    assert ready.over
    assert keys(ready.open) == ["copies.d1", "elsewhere.d1"]
    assert {entry.mark for entry in ready.open} == {"late"}
    assert {entry.mark for entry in ready.entries if not entry.is_open} == {"passed"}


def test_on_the_second_day_the_first_ones_evening_has_passed_and_the_rest_has_not():
    ready = ready_list(ready_brief(JUNE, NEXT, hours="10:00-20:00"), at(2027, 6, 13, 6))
    found = marks(ready)
    assert not ready.over
    assert found["bag.d1"] == "passed"
    assert found["bag.d2"] == "late"
    assert found["contract"] == "late"
    assert found["copies.d1"] == "late"


def test_without_a_date_nothing_is_due_and_nothing_is_lost():
    brief = ready_brief(ticks=ticks("contract"))
    ready = ready_list(brief, LONG_BEFORE)
    assert ready.entry("contract").mark == "done"
    assert {entry.mark for entry in ready.entries} == {"done", "undated"}
    assert not ready.over


def test_cards_wait_for_the_copies_of_the_wedding_before_and_of_the_day_before():
    brief = ready_brief(JUNE, NEXT, cards_hold=("Ana & Bo",))
    ready = ready_list(brief, LONG_BEFORE)
    said = [wait.message % wait.values for wait in ready.entry("cards.d2").waits_for]
    assert said == ["Two copies of Ana & Bo", "Two copies of 2027-06-12"]
    assert len(ready.entry("cards.d1").waits_for) == 1
    copied = replace(brief, cards_hold=(), ticks=ticks("copies.d1"))
    assert not ready_list(copied, LONG_BEFORE).entry("cards.d2").waits_for


KNOWN = {
    "sent": {"begun": True},
    "answered": {"sent_at": BOOKED},
    "meeting": {"met": True},
    "groups": {"groups": 3, "agreed_at": BOOKED},
    "consent": {"online": "ask"},
}


@pytest.mark.parametrize("key", KNOWN)
def test_what_the_app_can_see_nobody_ticks(key):
    entry = ready_list(ready_brief(JUNE, **KNOWN[key]), LONG_BEFORE).entry(key)
    assert entry.mark == "done"
    assert entry.tick is None
    assert entry.known.message % entry.known.values


UNKNOWN = {
    "sent": ({}, "Nobody has kept an answer"),
    "answered": ({"sent_at": BOOKED, "missing": 2}, "2 things are missing"),
    "meeting": ({"meeting_at": at(2027, 3, 1, 18)}, "Arranged for"),
    "groups": ({"groups": 3, "shared": True}, "waits to be confirmed"),
    "consent": ({"online": "undecided"}, "have not decided"),
    "visit": ({"visit_at": at(2027, 6, 1, 18)}, "Arranged for"),
    "helpers": ({"groups": 3, "helpers": ("Tomasz Bąk",)}, "Tomasz Bąk"),
    "coordinator": ({"coordinators": ("Ríona Achebe",)}, "Ríona Achebe"),
}


@pytest.mark.parametrize("key", UNKNOWN)
def test_what_is_not_done_yet_says_how_it_stands(key):
    fields, words = UNKNOWN[key]
    entry = ready_list(ready_brief(JUNE, **fields), LONG_BEFORE).entry(key)
    assert entry.is_open
    assert words in entry.known.message % entry.known.values


def test_a_meeting_that_went_by_without_a_trace_is_not_called_held():
    brief = ready_brief(JUNE, meeting_at=at(2027, 3, 1, 18))
    assert ready_list(brief, at(2027, 4, 1)).entry("meeting").mark == "late"


def test_what_was_agreed_is_due_when_it_was_agreed():
    brief = ready_brief(
        JUNE,
        meeting_at=at(2027, 3, 1, 18),
        visit_at=at(2027, 6, 3, 19, 30),
        answers_due=date(2027, 2, 1),
    )
    ready = ready_list(brief, LONG_BEFORE)
    assert ready.entry("meeting").due == at(2027, 3, 1, 18)
    assert ready.entry("visit").due == at(2027, 6, 3, 19, 30)
    assert ready.entry("answered").due == at(2027, 2, 1, 23, 59)


def test_the_studios_own_items_stand_among_the_others_by_their_date():
    late = Item("own-x", "Gift for the couple", Due("before", 3), "They like it", own=True)
    each = Item("own-y", "Sensor cleaned", Due("evening"), "", own=True)
    ready = ready_list(ready_brief(JUNE, own=(late, each)), LONG_BEFORE)
    listed = keys(ready.entries)
    assert listed.index("final-word") < listed.index("own-x") < listed.index("day-pack")
    assert "own-y.d1" in listed


def test_insurance_is_derived_for_each_kind():
    lapsed = replace(POLICIES[0], ends=date(2027, 6, 11))
    ready = ready_list(ready_brief(JUNE, policies=(lapsed, *POLICIES[1:])), LONG_BEFORE)
    found = marks(ready)
    assert found[f"insurance-{lapsed.kind}"] == "later"
    assert sorted(found[f"insurance-{p.kind}"] for p in POLICIES[1:]) == ["done", "done"]


def test_copies_wait_for_the_day_itself():
    ready = ready_list(ready_brief(JUNE), at(2027, 6, 12, 8, 59))
    for key in ("copies.d1", "elsewhere.d1"):
        (wait,) = ready.entry(key).waits_for
        assert wait.message % wait.values == "the day itself, 2027-06-12"
    began = ready_list(ready_brief(JUNE), at(2027, 6, 12, 9))  # ten o'clock in London
    assert not began.entry("copies.d1").waits_for


def test_a_bag_that_is_packed_needs_no_tick_and_one_half_packed_says_how_far_it_is():
    whole = ready_list(ready_brief(JUNE, goes=12, packed=12), LONG_BEFORE).entry("bag.d1")
    assert whole.mark == "done"
    half = ready_list(ready_brief(JUNE, goes=12, packed=7), LONG_BEFORE).entry("bag.d1")
    assert half.is_open
    assert half.known.message % half.known.values == "7 of 12 things of the bag are packed."
    assert ready_list(ready_brief(JUNE, goes=12), LONG_BEFORE).entry("bag.d1").known is None


def test_a_bag_packed_for_one_day_is_looked_at_again_before_the_next():
    ready = ready_list(ready_brief(JUNE, NEXT, goes=12, packed=12), LONG_BEFORE)
    assert ready.entry("bag.d1").is_open
    assert ready.entry("bag.d2").is_open


def test_charging_is_told_with_the_hour_to_begin():
    """Twelve batteries in two chargers, two and a half hours each: 15 hours before 21:00."""
    entry = ready_list(ready_brief(JUNE, charging_hours=15.0), LONG_BEFORE).entry("batteries.d1")
    assert entry.is_open
    assert entry.known.message % entry.known.values == (
        "They take about 15 h in your chargers: begin by 06:00."
    )


def test_charging_that_should_have_begun_begins_now():
    now = datetime(2027, 6, 11, 19, 30, tzinfo=UTC)
    entry = ready_list(ready_brief(JUNE, charging_hours=7.5), now).entry("batteries.d1")
    assert entry.known.message % entry.known.values == (
        "They take about 7.5 h in your chargers: begin now."
    )


def test_charging_over_a_clock_change_takes_the_hours_that_pass():
    """In the night to 28 March 2027 one o'clock is two in London (Directive 2000/84/EC)."""
    brief = ready_brief(date(2027, 3, 29), charging_hours=20.5)
    entry = ready_list(brief, LONG_BEFORE).entry("batteries.d1")
    assert entry.known.values["time"] == "23:30"  # by the clock alone 00:30
