"""What counts as a change, one line for each thing, and what does not."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from planning.compute.agreed import AgreedGroup, AgreedNote, AgreedTime, AgreedWish, Spoken
from planning.compute.agreed_changes import about_people, changes
from planning.compute.values import MustHave, Partner

from .briefs import group, moment
from .summaries import BRIEF, DAY, summary

WAS = summary()


def told(now, was=WAS):
    return [(change.what, change.was, change.now) for change in changes(was, now)]


def whats(now, was=WAS):
    return [change.what for change in changes(was, now)]


def with_time(which, said=WAS, **values):
    times = (replace(t, **values) if t.kind == which else t for t in said.times)
    return replace(said, times=tuple(times))


def moved(kind, begins, ends):
    time = next(t for t in WAS.times if t.kind == kind)
    start, end = time.start + timedelta(minutes=begins), time.end + timedelta(minutes=ends)
    return with_time(kind, at=start.isoformat(), until=end.isoformat())


def test_the_same_is_no_change():
    assert changes(WAS, summary()) == []


def test_a_name_is_told_with_what_it_was():
    new = Partner("Žofie Obi", "Žofie", phone="07700 900101")
    names = summary(partners=(new, BRIEF.partners[1])).names
    assert told(replace(WAS, names=names)) == [
        ("names", ("Žofie Nováková", "Ike Obi"), ("Žofie Obi", "Ike Obi"))
    ]


def test_another_date_is_one_change_and_no_time_of_that_day_moves():
    sunday = replace(DAY, date=date(2027, 6, 13))
    assert told(summary(days=(sunday,))) == [("date", "2027-06-12", "2027-06-13")]


def test_a_day_more_or_less_is_one_change_with_all_its_times():
    both = summary(days=(replace(DAY, key="d0", date=date(2027, 6, 11)), DAY))
    friday = both.days[0]
    more = replace(WAS, days=(friday, *WAS.days), times=(*both.of(friday), *WAS.times))
    assert told(more) == [("day", None, "2027-06-11")]
    assert told(WAS, more) == [("day", "2027-06-11", None)]


def test_booked_hours_are_one_change():
    changed = replace(WAS, days=(replace(WAS.days[0], ends="23:00"),))
    assert told(changed) == [("hours", ("10:00", "22:30"), ("10:00", "23:00"))]


@pytest.mark.parametrize("what", ["address", "wet_plan", "not_allowed"])
def test_what_is_said_of_a_place_is_a_change_of_its_own(what):
    changed = replace(WAS, places=(replace(WAS.places[0], **{what: "Elsewhere"}),))
    assert told(changed) == [(what, getattr(WAS.places[0], what), "Elsewhere")]


def test_places_come_and_go():
    assert told(replace(WAS, places=())) == [("place", "Orchard Barn", None)]
    assert told(WAS, replace(WAS, places=())) == [("place", None, "Orchard Barn")]


@pytest.mark.parametrize(
    ("kind", "begins", "ends", "counts"),
    [
        ("ceremony", 1, 1, True),  # fixed: its printed time is another one
        ("ceremony", -1, 0, True),
        ("ceremony", 0, 4, False),  # when it ends is only planned
        ("ceremony", 0, 5, True),
        ("portraits", 4, 4, False),
        ("portraits", -4, -4, False),
        ("portraits", 5, 5, True),
        ("portraits", 0, -5, True),
    ],
)
def test_a_fixed_time_counts_to_the_minute_and_a_planned_one_from_five(kind, begins, ends, counts):
    assert whats(moved(kind, begins, ends)) == (["time"] if counts else [])


def test_a_time_that_becomes_fixed_is_a_change_although_it_stays():
    assert whats(with_time("portraits", fixed=True)) == ["time"]


def test_a_block_that_takes_over_a_new_answer_is_the_same_block():
    """The couple named a time for what was only planned: its key is now their answer's."""
    was = with_time("portraits", kind="cake", title="Cake", key="d1-cake")
    assert changes(was, with_time("cake", was, key="m77")) == []


def test_what_enters_and_leaves_the_day_is_told():
    fewer = replace(WAS, times=tuple(t for t in WAS.times if t.kind != "portraits"))
    (change,) = changes(WAS, fewer)
    assert (change.what, change.name, change.now) == ("time", "Portraits of the two of you", None)
    (change,) = changes(fewer, WAS)
    assert isinstance(change.now, AgreedTime)


def test_a_chance_counts_only_where_it_fell():
    was = with_time("dance", sure=90)
    assert told(with_time("dance", sure=75), was) == [("sure", 90, 75)]
    assert told(with_time("dance", sure=95), was) == []
    assert told(with_time("dance", sure=None), was) == []


def test_a_day_that_no_longer_fits_is_told():
    short = replace(WAS, days=(replace(WAS.days[0], holds="short"),))
    assert told(short) == [("holds", "holds", "short")]


def test_a_new_group_is_one_change_and_not_also_minutes_room_and_order():
    more = summary(groups=(*BRIEF.groups, group("Walkers", "Ed Okoro")))
    (change,) = (c for c in changes(WAS, more) if c.what not in ("time", "sure"))
    assert (change.what, change.name, change.was) == ("group", "Walkers", None)
    assert isinstance(change.now, AgreedGroup)


def test_who_stands_in_a_group_is_told_by_name():
    groups = tuple(
        replace(g, people=("Cy Keane", "Ed Okoro")) if g.title == "Cousins" else g
        for g in WAS.groups
    )
    (change,) = changes(WAS, replace(WAS, groups=groups))
    assert change.what == "group_people"
    assert about_people(change) == (["Ed Okoro"], ["Ana Obi"])


def test_the_same_people_in_another_order_are_the_same_people():
    groups = tuple(replace(g, people=g.people[::-1]) for g in WAS.groups)
    assert changes(WAS, replace(WAS, groups=groups)) == []


@pytest.mark.parametrize(
    ("field", "value", "what"),
    [
        ("title", "Rowers", "group_title"),
        ("minutes", 6.5, "group_minutes"),
        ("must", False, "group_must"),
        ("more", 9, "group_people"),
    ],
)
def test_each_thing_said_of_a_group_is_told(field, value, what):
    groups = (*WAS.groups[:-1], replace(WAS.groups[-1], **{field: value}))
    assert whats(replace(WAS, groups=groups)) == [what]


def test_another_order_is_one_change_however_many_groups_move():
    (change,) = changes(WAS, replace(WAS, groups=WAS.groups[::-1]))
    assert change.what == "order"
    assert change.now == change.was[::-1]


def test_photographs_that_they_want_come_go_and_change():
    now = summary(must_haves=(MustHave("Grandfather's watch, close", "getting_ready", key="w1"),))
    assert told(now) == [("wish", "Grandfather's watch", "Grandfather's watch, close")]
    assert told(replace(WAS, wishes=())) == [("wish", "Grandfather's watch", None)]
    other = (AgreedWish("w1", "Grandfather's watch", "meal"),)
    assert whats(replace(WAS, wishes=other)) == ["wish_kind"]


def test_our_own_words_may_be_mended_and_the_studios_count():
    ours = replace(WAS, spoken=Spoken("Better said.", False, ()))
    assert changes(WAS, ours) == []
    theirs = replace(WAS, spoken=Spoken("No drones with us.", True, ()))
    assert whats(theirs) == ["cannot"]


def test_a_note_counts_by_its_words():
    note = AgreedNote("places.places.barn", "The barn", WAS.notes[0].text)
    assert changes(WAS, replace(WAS, notes=(note,))) == []
    assert whats(replace(WAS, notes=())) == ["note"]
    assert whats(replace(WAS, notes=(replace(note, text="Ring twice."),))) == ["note"]


def test_moving_one_fixed_time_of_a_real_plan_tells_that_time():
    later = tuple(moment("meal", "17:20") if m.kind == "meal" else m for m in DAY.moments)
    later = tuple(replace(m, key=old.key) for m, old in zip(later, DAY.moments, strict=True))
    found = {change.name for change in changes(WAS, summary(days=(replace(DAY, moments=later),)))}
    assert "Meal" in found
    assert "Ceremony" not in found
