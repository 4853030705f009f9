"""What the invented studio holds and has ticked, so that the lists show every state."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

from intake.models import Wedding
from planning.models import Experience, Policy, ReadyItem

BOOKED_BEFORE = timedelta(days=300)  # before the wedding
BY = "Marigold"
# Which lines are ticked, and with what note, from how many days before the wedding on.
TICKED = (
    ("contract", "In the folder of the couple, and on the phone", 84),
    ("stand-in", "Ingrid Solheim, free that day", 60),
    ("own-gift", "", 30),
)


def insure(today: date) -> None:
    """Two policies that lapse in the middle of the season, and one that stops at the border."""
    soon = today + timedelta(days=150)
    for position, (kind, ends, countries) in enumerate(
        [
            ("liability", soon, []),
            ("indemnity", soon, []),
            ("equipment", today + timedelta(days=600), ["GB", "IE"]),
        ]
    ):
        Policy.objects.create(
            key=f"policy-{kind}",
            position=position,
            kind=kind,
            insurer="Larkmoor Mutual",
            number=f"LM {4100 + position}",
            phone="01632 960140",
            starts=ends - timedelta(days=729),
            ends=ends,
            countries=countries,
        )
    ReadyItem.objects.create(
        key="gift", title="A card for the couple written", why="They remember it.", days=4
    )


def gain_experience(today: date) -> None:
    for position, (weeks, beside, learnt) in enumerate(
        [
            (
                120,
                "Ingrid Solheim",
                "Call each group twice, and the next one while this one stands.",
            ),
            (110, "Ingrid Solheim", "The room is dark once the candles are lit: flash off a wall."),
            (101, "Amaru Quispe", "Cards go into a pocket that shuts, never back into the bag."),
        ]
    ):
        on = today - timedelta(weeks=weeks)
        Experience.objects.create(
            key=f"experience-{position + 1}", position=position, on=on, beside=beside, learnt=learnt
        )


def tick(wedding: Wedding, today: date) -> None:
    """It was booked long ago, and what is usually done by now is."""
    first = min(wedding.dates)
    booked = datetime.combine(min(first, today) - BOOKED_BEFORE, time(12), UTC)
    Wedding.objects.filter(pk=wedding.pk).update(created_at=booked)
    for key, note, days in TICKED:
        done = first - timedelta(days=days)
        if done <= today:
            at = datetime.combine(done, time(18, 20), UTC)
            wedding.ready_ticks.create(key=key, state="done", by_name=BY, at=at, note=note)
