"""The single-failure check measured, with brute force on the same bag beside it."""

from __future__ import annotations

from random import Random
from statistics import median
from time import process_time
from typing import Any

from planning.bench.bag_peer import brute
from planning.compute.bag.check import check_bag
from planning.compute.bag.items import Item
from planning.compute.bag.need import RESERVE, Need

SIZES, GOAL = (30, 120, 500), 1.0  # things; seconds for the largest
SHARES = {
    "body": 2, "lens": 15, "flash": 6, "card": 28, "battery": 22, "charger": 6, "reader": 4,
    "drive": 5, "thing": 12,
}  # fmt: skip
FORMS, POWERS, MOUNTS = ("SD", "CF"), ("P", "Q"), ("M", "N")
RAW_MB, USED = 30.0, 0.995  # megabytes; share of the room on the cards that the day takes


def invented_bag(count: int, seed: int) -> tuple[Item, ...]:
    """That many things, no two cards or lenses alike, a fifth of them left at home."""
    rng = Random(seed * 1000 + count)  # noqa: S311 - invented, and the same every time
    kinds = [kind for kind, share in SHARES.items() for _ in range(max(2, share * count // 100))]
    kinds += ["thing"] * (count - len(kinds))
    return tuple(
        Item(
            f"i{at}",
            kind,
            f"Thing {at}",
            mount=rng.choice(MOUNTS),
            card_form=FORMS[at % 2],
            power=POWERS[at % 2],
            shots=rng.randint(300, 900),
            wide=rng.choice((16.0, 24.0, 70.0)) + at / 1000,
            long=rng.choice((35.0, 70.0, 200.0)) + at / 1000,
            aperture=rng.choice((1.8, 2.8, 4.0)),
            gb=rng.choice((32, 64, 128)) + at / 1000 if kind == "card" else 2000,
            taken=kind == "body" or rng.random() < 0.8,
        )
        for at, kind in enumerate(kinds[:count])
    )


def invented_need(kit: tuple[Item, ...]) -> Need:
    """So many frames that few cards can be spared: many holes, each in want of a cure."""
    room = sum(item.gb for item in kit if item.taken and item.kind == "card")
    frames = int(room * 1000 / RAW_MB / RESERVE * USED)
    return Need(((None, frames),), frames, RAW_MB, round(frames * RAW_MB / 1000, 1))  # type: ignore[arg-type]


def title(count: int) -> str:
    return f"bag, {count} things"


def measured(count: int, bags: int, peer_seconds: float) -> dict[str, Any]:
    """Seconds of the processor; the peer takes out as many things as it can in that time."""
    kits = [invented_bag(count, seed) for seed in range(bags)]
    times = [_timed(kit) for kit in kits]
    row: dict[str, Any] = {
        "work": title(count),
        "bags": bags,
        "median": median(times),
        "worst": max(times),
        "goal": GOAL,
    }
    return row | ({"peer": _peer(kits[0], peer_seconds)} if peer_seconds else {})


def _timed(kit: tuple[Item, ...]) -> float:
    need = invented_need(kit)
    started = process_time()
    check_bag(kit, need)
    return process_time() - started


def _peer(kit: tuple[Item, ...], seconds: float) -> dict[str, Any]:
    need, items = invented_need(kit), [item for item in kit if item.taken]
    holes = check_bag(kit, need).holes
    ours = {hole.lost[0].key: {job.key for job in hole.jobs} for hole in holes}
    started, tried, alike = process_time(), 0, True
    whole = brute(items, need)
    for at, item in enumerate(items):
        lost = whole - brute(items[:at] + items[at + 1 :], need)
        alike, tried = alike and lost == ours.get(item.key, set()), tried + 1
        if process_time() - started > seconds:
            break
    spent = process_time() - started
    return {"seconds": spent, "tried": tried, "of": len(items), "same": alike}


def as_line(row: dict[str, Any]) -> str:
    line = (
        f"{row['work']:<34}{1000 * row['median']:9.1f}{1000 * row['worst']:9.1f}"
        f"{1000 * row['goal']:8.0f}"
    )
    peer = row.get("peer")
    if not peer:
        return line
    told = "same holes" if peer["same"] else "DIFFERENT HOLES"
    return f"{line}  {1000 * peer['seconds']:8.0f} ms for {peer['tried']} of {peer['of']}, {told}"


HEAD = (
    f"{'single failures, processor':<34}{'median ms':>9}{'worst':>9}{'goal':>8}"
    "  brute force, taking out one after the other"
)
