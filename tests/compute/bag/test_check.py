"""The single-failure check beside one that tries everything (naive.py) and shares none of it."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planning.compute.bag.check import check_bag, together, undone
from planning.compute.bag.hire import hire_words
from planning.compute.bag.jobs import JOBS, SAFETY
from planning.compute.bag.need import Need
from planning.compute.bag.stock import stock_of
from studio.templatetags.clock import said

from .naive import covered, twice
from .things import (
    BODY,
    CARD,
    CELL,
    CHARGER,
    DRIVE,
    FAST,
    FLASH,
    READER,
    ZOOM,
    any_item,
    any_kit,
    any_need,
)

slowly = settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)


def pouch(item, key):
    return replace(item, key=key, carried="Pouch")


SOUND = (
    BODY, replace(BODY, key="b", title="Second", carried="Pouch"), pouch(ZOOM, "z2"), ZOOM,
    FAST, pouch(FLASH, "flash"), CHARGER, pouch(CHARGER, "c2"), READER, pouch(READER, "r2"),
    DRIVE, replace(DRIVE, key="d1", carried="Home"), replace(DRIVE, key="d2", carried="Desk"),
    CARD, replace(CARD, carried="Pouch"), CELL, replace(CELL, carried="Pouch"), CARD, CELL, CELL,
)  # fmt: skip


def with_frames(need):
    return replace(need, frames_by_block=((None, need.frames),) if need.frames else ())


def without(items, gone):
    left = list(items)
    for item in gone:
        left.remove(item)
    return tuple(left)


def things_of(cures):
    return tuple(cure.item for cure in cures for _each in range(cure.count))


@slowly
@given(any_kit, any_need)
def test_what_is_done_is_what_trying_everything_finds(kit, need):
    lacking = {job.key for job in undone(kit, with_frames(need))}
    assert {job.key for job in JOBS} - lacking == covered(kit, need)


@slowly
@given(any_kit, any_need)
def test_each_single_failure_is_what_trying_everything_finds(kit, need):
    items = tuple(item for item in kit if item.taken)
    bag, whole = check_bag(kit, with_frames(need)), covered(items, need)
    found = {(hole.lost[0].key, job.key) for hole in bag.holes for job in hole.jobs}
    expected = set()
    for at, item in enumerate(items):
        left = items[:at] + items[at + 1 :]
        expected |= {(item.key, job) for job in whole - covered(left, need)}
    assert found == expected
    for where in {item.carried for item in items}:
        left = tuple(item for item in items if item.carried != where)
        keys = {item.key for item in items if item.carried == where}
        lost = whole - covered(left, need) - {job for key, job in expected if key in keys}
        told = {job.key for h in bag.shared if h.where == where for job in h.jobs}
        assert told == lost or (not left and "camera" in lost and told == {"camera"})


@slowly
@given(any_kit, any_need)
def test_every_cure_cures_when_everything_is_tried_again_with_it(kit, need):
    bag = check_bag(kit, with_frames(need))
    whole = covered(bag.items, need)
    for hole in bag.holes:
        assert all(h.item in bag.spare for h in hole.cures if h.is_own)
        if hole.cures:
            now = without(bag.items, hole.lost) + things_of(hole.cures)
            assert whole <= covered(now, need)
    have = bag.items
    for hole in bag.missing:
        have += things_of(hole.cures)
        if hole.cures:
            assert whole | {job.key for job in hole.jobs} <= covered(have, need)
    for hole in bag.shared:
        left = tuple(item for item in bag.items if item.carried != hole.where)
        if hole.cures:
            now = covered(left + things_of(hole.cures), need)
            assert {job.key for job in hole.jobs} <= now


@slowly
@given(any_kit, any_need)
def test_one_thing_of_the_kit_is_named_where_one_is_enough_and_each_failure_has_a_cure(kit, need):
    bag = check_bag(kit, with_frames(need))
    whole = covered(bag.items, need)
    for hole in bag.holes:
        left = without(bag.items, hole.lost)
        if any(whole <= covered((*left, spare), need) for spare in bag.spare):
            assert [(cure.is_own, cure.count) for cure in hole.cures] == [(True, 1)]
        assert hole.cures  # another like the lost one always cures


few = st.lists(any_item.filter(lambda i: i.kind in {"body", "card", "battery"}), max_size=6)


@slowly
@given(few, any_need)
def test_two_cards_for_every_frame_is_what_every_order_of_the_cards_finds(items, need):
    items = (*(replace(item, raw_mb=30.0) for item in items), replace(BODY, slots=2), CARD, CELL)
    items = tuple(
        replace(i, second_form="" if i.card_form == "CF" else i.second_form) for i in items
    )
    need = replace(with_frames(need), copies=2, gb=9.0)
    assert (not undone(items, need, SAFETY)) == (twice(items, need) >= need.frames)


def test_several_things_of_the_kit_cure_together_and_no_more_than_are_needed():
    """The only stand-in needs its own card, battery, charger, reader and lens, all at home."""
    body = replace(BODY, key="old", card_form="CF", power="Q", mount="N")
    needed = [
        replace(CARD, card_form="CF"), replace(CELL, power="Q"), replace(READER, card_form="CF"),
        replace(CHARGER, power="Q"), replace(ZOOM, key="far", mount="N"), body,
    ]  # fmt: skip
    home = tuple(replace(each, taken=False) for each in (*needed, *needed[:2]))
    alone = (*(i for i in SOUND if i.key != "b"), *home)
    (hole,) = [h for h in check_bag(alone, Need()).holes if h.lost[0] == BODY]
    assert [cure.item for cure in hole.cures] == list(home[:6])
    (hole,) = [h for h in check_bag(alone[:-1][:-3], Need()).holes if h.lost[0] == BODY]
    assert [cure.is_own for cure in hole.cures] == [False]  # without the body: another


def test_a_thing_at_home_that_wakes_a_body_of_another_system_hides_no_cure():
    """A battery for the body without one makes it work, and then it has no charger."""
    asleep = replace(BODY, key="q", power="Q", card_form="XQ")
    bag = (*SOUND, asleep, replace(CARD, key="x", card_form="XQ"))
    awake = replace(CELL, key="wakes", power="Q", taken=False)
    spare = replace(CARD, key="spare", gb=40.0, taken=False)
    need = Need(frames=6400, raw_mb=30.0, gb=192.0, shots=5000)
    (hole,) = check_bag((*bag, awake, spare, spare), need).missing
    assert [job.key for job in hole.jobs] == ["space"]
    assert [(cure.item.key, cure.count) for cure in hole.cures] == [("spare", 2)]


def test_one_body_without_a_rating_lets_the_other_count():
    need = Need(frames=1700, raw_mb=30.0, gb=51.0)
    bag = [replace(each, shots=0) if each.key == "b" else each for each in SOUND]
    found = check_bag(tuple(bag), need)
    assert "power" in {job.key for hole in found.missing for job in hole.jobs}
    assert [(item.key, figure) for item, figure in found.unknown] == [("b", "shots")]


def test_a_whole_bag_has_nothing_to_say():
    bag = check_bag(SOUND, Need())
    assert bag.is_sound
    assert bag.holes == bag.missing == bag.shared == ()


@pytest.mark.parametrize("key", ["b", "c2", "r2", "d2", "z2"])
def test_without_its_stand_in_the_other_one_is_a_hole(key):
    bag = check_bag(tuple(item for item in SOUND if item.key != key), Need())
    assert bag.holes
    assert not bag.missing


def test_all_in_one_bag_is_told():
    together = tuple(replace(item, carried="Pouch") for item in SOUND)
    (hole,) = check_bag(together, Need()).shared
    assert (hole.where, [job.key for job in hole.jobs]) == ("Pouch", ["camera"])


@pytest.mark.parametrize(
    ("kinds", "job"),
    [({"charger"}, "charging"), ({"reader"}, "copies"), ({"drive"}, "copies"), ({"lens"}, "wide")],
)
def test_what_travels_in_one_case_is_lost_together_whatever_it_is(kinds, job):
    case = tuple(replace(i, carried="Case") if i.kind in kinds else i for i in SOUND)
    (hole,) = check_bag(case, Need()).shared
    assert hole.where == "Case"
    assert job in {each.key for each in hole.jobs}
    moved = {cure.item for cure in hole.cures}
    assert moved < {item for item in case if item.carried == "Case"}
    apart = tuple(replace(i, carried=i.key) if i in moved else i for i in case)
    assert check_bag(apart, Need()).shared == ()


def test_a_card_that_no_reader_takes_and_a_battery_that_no_charger_takes_are_told():
    other = replace(BODY, key="o", card_form="XD", power="Q", carried="Pouch")
    more = (other, replace(CARD, key="x", card_form="XD"), replace(CELL, key="q", power="Q"))
    charging, copies = check_bag((*SOUND, *more), Need()).missing
    assert [said(hire_words(cure)) for cure in charging.cures] == ["1 × charger (Q)"]
    assert [said(hire_words(cure)) for cure in copies.cures] == ["1 × reader (XD)"]
    both = tuple(
        replace(i, card_form="SD, XD", power="P,Q") if i.kind in {"reader", "charger"} else i
        for i in SOUND
    )
    assert check_bag((*both, *more), Need()).is_sound


def test_a_body_whose_slots_differ_works_with_either_card():
    body = replace(BODY, slots=2, second_form="CF", card_form="XQ")
    for form in ("CF", "xq"):
        assert not undone((body, replace(CARD, card_form=form), CELL), Need(), JOBS[:1])
    assert undone((replace(body, slots=1), replace(CARD, card_form="CF"), CELL), Need(), JOBS[:1])


def test_a_lost_body_with_two_slots_is_less_safe_and_no_hole_where_the_other_holds_the_day():
    """800 frames at 39 MB with the reserve are 31.2 GB: each 64 GB card takes them once."""
    pair = tuple(replace(i, slots=2) if i.key == "a" else i for i in SOUND)
    need = with_frames(Need(frames=800, raw_mb=30, gb=24, copies=2, shots=900))
    bag = check_bag(pair, need)
    assert bag.is_sound
    assert [(h.lost[0].key, [job.key for job in h.jobs]) for h in bag.safety] == [("a", ["twice"])]


def test_the_other_body_needs_room_for_its_own_files_only():
    """1,200 frames are 86 GB at 55 MB with the reserve and 44 GB at 28 MB; 64 GB are left."""
    large, small = replace(BODY, raw_mb=55), replace(BODY, key="b", raw_mb=28, card_form="CF")
    cards = (CARD, CARD, replace(CARD, key="cf", card_form="CF"), CELL, CELL, CELL, CELL)
    need = with_frames(Need(frames=1200, raw_mb=55, gb=66))
    holes = check_bag((large, small, *cards), need).holes
    assert "space" not in {job.key for hole in holes for job in hole.jobs if hole.lost[0] == large}


def test_what_stays_at_home_can_cure():
    spare = replace(BODY, key="old", title="Old body", taken=False)
    bag = check_bag((*(i for i in SOUND if i.key != "b"), spare), Need())
    assert {cure.item for hole in bag.holes for cure in hole.cures} == {spare}


def test_five_hundred_things_are_checked_as_few_are():
    many = tuple(replace(CARD, key=f"k{n}", gb=64 + n / 10) for n in range(480))
    need = with_frames(Need(frames=800, raw_mb=30, gb=24, shots=900))
    assert check_bag((*SOUND, *many), need).is_sound
    (hole,) = check_bag((*SOUND[1:], *many), need).holes[:1]
    assert hole.lost[0].key == "b"
    assert [(cure.item.kind, cure.count, cure.is_own) for cure in hole.cures] == [
        ("body", 1, False)
    ]


def test_the_only_body_is_hired_again_by_its_own_fittings_whatever_the_flashes_take():
    cells = replace(CELL, key="aa", power="AA")
    alone = (cells, replace(FLASH, power="AA"), *(i for i in SOUND if i.key != "b"))
    (hole,) = [h for h in check_bag(alone, Need()).holes if h.lost[0] == BODY]
    assert [said(hire_words(c)) for c in hole.cures] == ["1 × body (mount M, card SD, battery P)"]
    without_any = tuple(item for item in alone if item.kind != "body")
    (hole,) = check_bag(without_any, Need()).missing
    assert [said(hire_words(c)) for c in hole.cures] == ["1 × body (mount M, card SD, battery P)"]


def test_the_one_card_for_a_whole_day_is_hired_as_large_as_the_day():
    """1,100 frames of 39 MB with the reserve are 42.9 GB."""
    bag = tuple(i for i in SOUND if i.kind != "card")
    need = with_frames(Need(frames=1100, raw_mb=30, gb=33, shots=900))
    (hole,) = check_bag(bag, need).missing
    assert [said(hire_words(c)) for c in hole.cures] == ["1 × card (SD, 64 GB or more)"]


def test_holes_that_ask_for_the_same_are_told_at_once():
    fast = tuple(i for i in SOUND if i.key not in {"z2", "flash", "zoom"})
    alone = (*fast, replace(ZOOM, wide=70), replace(FAST, key="f2", title="Other", long=35))
    told = together(check_bag(alone, Need()).holes)
    assert [[hole.lost[0].key for hole in each] for each in told] == [["zoom"]]
    chargers = [replace(CHARGER, key=key, taken=key == "c") for key in "cd"]
    bag = check_bag((*(i for i in SOUND if i.kind != "charger"), *chargers), Need())
    assert [cure.item.key for cure in bag.holes[0].cures] == ["d"]


def test_what_is_hired_is_named_by_what_has_to_fit():
    alone = (*(i for i in SOUND if i.kind not in {"card", "battery"}), CARD, CELL)
    hired = {h.lost[0].kind: said(hire_words(h.cures[0])) for h in check_bag(alone, Need()).holes}
    assert hired == {
        "card": "1 × card (SD, 32 GB or more)",
        "battery": "1 × charged battery (P)",
    }


@given(st.sampled_from(JOBS))
def test_a_job_is_not_done_by_nothing(job):
    assert not job.done(stock_of(()), Need())
