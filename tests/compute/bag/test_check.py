"""The single-failure check beside brute force, written another way: whole combinations tried."""

from dataclasses import replace
from itertools import product

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from planning.compute.bag.check import check_bag, undone
from planning.compute.bag.items import KINDS
from planning.compute.bag.jobs import JOBS
from planning.compute.bag.need import Need

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


def same(a, b):
    return a.replace(" ", "").lower() == b.replace(" ", "").lower()


def brute(bag, need):
    """The jobs that are done, by trying every camera that could be put together."""
    by = {kind: [item for item in bag if item.kind == kind] for kind in KINDS}
    cameras = [
        body
        for body, card, cell in product(by["body"], by["card"], by["battery"])
        if same(body.card_form, card.card_form) and same(body.power, cell.power)
    ]
    views = [lens for c, lens in product(cameras, by["lens"]) if same(c.mount, lens.mount)]
    done = set()
    if cameras:
        done.add("camera")
    if any(lens.wide <= 35 for lens in views):
        done.add("wide")
    if any(lens.long >= 70 for lens in views):
        done.add("longer")
    lit = [f for f in by["flash"] if f.power == ""]
    lit += [f for f, cell in product(by["flash"], by["battery"]) if same(f.power, cell.power)]
    if cameras and (lit or [lens for lens in views if lens.aperture and lens.aperture <= 2]):
        done.add("dark")
    if any(same(c.power, charger.power) for c, charger in product(cameras, by["charger"])):
        done.add("charging")
    roomy = sum(1 for drive in by["drive"] if drive.gb == 0 or drive.gb >= need.gb)
    pairs = product(by["reader"], by["card"])
    if roomy >= 2 and any(same(r.card_form, c.card_form) for r, c in pairs):
        done.add("copies")
    if cameras and enough_power(cameras, by["battery"], need):
        done.add("power")
    if enough_room(cameras, by["card"], need):
        done.add("space")
    return done


def enough_power(cameras, cells, need):
    if any(c.shots == 0 for c in cameras):
        return True
    frames = 0.0
    for cell in cells:
        best = [c.shots for c in cameras if same(c.power, cell.power)]
        frames += max([0, *best]) * (0.8 if cell.old else 1) * (0.8 if need.cold else 1)
    return frames >= need.frames


def enough_room(cameras, cards, need):
    """Frame by frame: every set of cards takes its frames, none more than half of the day."""
    cards = [x for x in cards if any(same(x.card_form, c.card_form) for c in cameras)]
    if need.gb == 0:
        return bool(cards)
    total = sum(frames for _block, frames in need.frames_by_block)
    rooms = []
    for form in {x.card_form.lower() for x in cards}:
        sizes = sorted((x.gb for x in cards if x.card_form.lower() == form), reverse=True)
        rooms += sizes[1::2] if need.copies == 2 else sizes
    most = (total + 1) // 2
    held = sum(min(most, int(gb * 1000 / (need.raw_mb * 1.3) + 1e-9)) for gb in rooms)
    return total > 0 and held >= total


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
def test_a_cure_cures_and_the_cheapest_one_is_named(kit, need):
    need = with_frames(need)
    bag = check_bag(kit, need)
    for hole in (*bag.missing, *bag.holes):
        left = list(bag.items)
        for item in hole.lost:
            left.remove(item)
        would = [s for s in bag.spare if hole.jobs[0].key in brute((*left, s), need)]
        if hole.cure.item:
            assert hole.cure.item in would
            best = min(KINDS.index(item.kind) for item in would)
            assert KINDS.index(hole.cure.item.kind) == best
        else:
            assert not would
            assert hole.cure.hire


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
    assert {hole.cure.item for hole in bag.holes} == {spare}


def test_five_hundred_things_are_checked():
    many = tuple(replace(CARD, key=f"k{n}") for n in range(480))
    need = with_frames(Need(frames=800, raw_mb=30, gb=24))
    assert check_bag((*SOUND, *many), need).is_sound


@given(st.sampled_from(JOBS))
def test_a_job_is_not_done_by_nothing(job):
    assert not job.done((), Need())
