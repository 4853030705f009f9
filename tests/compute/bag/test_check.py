"""The single-failure check beside brute force, which is written another way (bench/bag_peer.py)."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planning.bench.bag_peer import brute
from planning.compute.bag.check import check_bag, together, undone
from planning.compute.bag.cures import SAME
from planning.compute.bag.items import KINDS
from planning.compute.bag.jobs import JOBS
from planning.compute.bag.need import Need
from planning.compute.bag.stock import stock_of

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

slowly = settings(suppress_health_check=[HealthCheck.too_slow], deadline=None)

SOUND = (
    BODY, replace(BODY, key="b", title="Second", carried="Pouch"), replace(ZOOM, key="z2"), ZOOM,
    FAST, FLASH, CHARGER, replace(CHARGER, key="c2"), READER, replace(READER, key="r2"),
    *(replace(DRIVE, key=f"d{n}") for n in range(3)), CARD, replace(CARD, carried="Pouch"),
    CELL, replace(CELL, carried="Pouch"), CARD, CELL, CELL,
)  # fmt: skip


def with_frames(need):
    return replace(need, frames_by_block=((None, need.frames),) if need.frames else ())


@slowly
@given(any_kit, any_need)
def test_what_is_done_is_what_brute_force_finds(kit, need):
    need = with_frames(need)
    lacking = {job.key for job in undone(kit, need)}
    assert {job.key for job in JOBS} - lacking == brute(kit, need)


@slowly
@given(any_kit, any_need)
def test_each_single_failure_is_what_brute_force_finds(kit, need):
    need = with_frames(need)
    bag = check_bag(kit, need)
    items = tuple(item for item in kit if item.taken)
    found = {(hole.lost[0].key, job.key) for hole in bag.holes for job in hole.jobs}
    expected = set()
    for at, item in enumerate(items):
        left = items[:at] + items[at + 1 :]
        expected |= {(item.key, job) for job in brute(items, need) - brute(left, need)}
    assert found == expected


@slowly
@given(any_kit, any_item, any_need)
def test_one_thing_more_never_makes_a_job_undone(kit, more, need):
    need = with_frames(need)
    assert brute(kit, need) <= brute((*kit, more), need)
    assert {j.key for j in undone((*kit, more), need)} <= {j.key for j in undone(kit, need)}


@slowly
@given(any_kit, any_need)
def test_what_is_named_cures_and_what_is_to_be_hired_is_not_in_the_kit(kit, need):
    need = with_frames(need)
    bag = check_bag(kit, need)
    for hole in (*bag.missing, *bag.holes):
        left = list(bag.items)
        for item in hole.lost:
            left.remove(item)
        own = [cure.item for cure in hole.cures if cure.item]
        assert all(own.count(item) <= bag.spare.count(item) for item in own)
        hired = [cure.hire for cure in hole.cures if not cure.item]
        # A hired card, battery or first body is as good as the lost one.
        alike = bool(hole.lost) and (hole.lost[0].kind in SAME or JOBS[0].hire in hired)
        same = hole.lost if hired and alike else ()
        undone_now = {job for job in hole.jobs if job.key not in brute((*left, *own, *same), need)}
        assert undone_now <= {job for job in JOBS if job.hire in hired}
        for job in hole.jobs:
            if job.hire in hired and not same:
                assert job.key not in brute((*left, *bag.spare), need)


@slowly
@given(any_kit, any_need)
def test_the_cheapest_one_thing_is_named_where_one_is_enough(kit, need):
    need = with_frames(need)
    bag = check_bag(kit, need)
    for hole in (*bag.missing, *bag.holes):
        left = list(bag.items)
        for item in hole.lost:
            left.remove(item)
        would = [s for s in bag.spare if hole.jobs[0].key in brute((*left, s), need)]
        if would:
            best = min(KINDS.index(item.kind) for item in would)
            assert KINDS.index(hole.cures[0].item.kind) == best


def test_several_things_of_the_kit_cure_together_and_no_more_than_are_needed():
    """The only stand-in needs its own card and battery, which stay at home too."""
    home = [replace(each, taken=False) for each in (CARD, CELL)]
    form = [replace(each, card_form="CF", power="Q") for each in home]
    old = replace(BODY, key="old", card_form="CF", power="Q", taken=False)
    lens = replace(ZOOM, key="far", mount="N", taken=False)
    alone = (*(i for i in SOUND if i.key != "b"), *form, *form, lens, old)
    (hole,) = [h for h in check_bag(alone, Need()).holes if h.lost[0] == BODY]
    assert [cure.item for cure in hole.cures][:3] == [form[0], form[1], old]


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


def test_what_stays_at_home_can_cure():
    spare = replace(BODY, key="old", title="Old body", taken=False)
    bag = check_bag((*(i for i in SOUND if i.key != "b"), spare), Need())
    assert {cure.item for hole in bag.holes for cure in hole.cures} == {spare}


def test_five_hundred_things_are_checked_as_few_are():
    many = tuple(replace(CARD, key=f"k{n}", gb=64 + n / 10) for n in range(480))
    need = with_frames(Need(frames=800, raw_mb=30, gb=24))
    assert check_bag((*SOUND, *many), need).is_sound
    (hole,) = check_bag((*SOUND[1:], *many), need).holes[:1]
    assert (hole.lost[0].key, hole.cures[0].hire) == ("b", JOBS[0].hire)


def test_holes_that_ask_for_the_same_are_told_at_once():
    fast = tuple(i for i in SOUND if i.key not in {"z2", "flash", "zoom"})
    alone = (*fast, replace(ZOOM, wide=70), replace(FAST, key="f2", title="Other", long=35))
    told = together(check_bag(alone, Need()).holes)
    assert [[hole.lost[0].key for hole in each] for each in told] == [["zoom"]]
    chargers = [replace(CHARGER, key=key, taken=key == "c") for key in "cd"]
    bag = check_bag((*(i for i in SOUND if i.kind != "charger"), *chargers), Need())
    assert [cure.item.key for cure in bag.holes[0].cures] == ["d"]


def test_what_is_hired_for_a_lost_card_is_a_card():
    alone = (*(i for i in SOUND if i.kind not in {"card", "battery"}), CARD, CELL)
    hired = {h.lost[0].kind: h.cures[0].hire for h in check_bag(alone, Need()).holes}
    assert hired == {"card": "another card", "battery": "another battery"}


@given(st.sampled_from(JOBS))
def test_a_job_is_not_done_by_nothing(job):
    assert not job.done(stock_of(()), Need())
