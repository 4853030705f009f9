"""Whatever is pressed and typed on the Day screen: it answers, and loses nothing."""

import random

import pytest

from intake.models import Moment, Place
from planning.models import BlockDecision, Drive

PAGE = "/w/thora-lukasz/day"
TIMES = ["", "14:00", "00:30", "23:59", "25:00", "noon", "٣:٠٠", "9"]
NUMBERS = ["", "0", "5", "25", "1440", "1441", "-3", "x", "９", "9" * 40]
TEXTS = ["", "Ride", "ש" * 80, "x" * 81, "a\x00b", "<b>", "y" * 100_000]
FIELDS = {
    **dict.fromkeys(["at", "wished", "opens", "closes"], TIMES),
    **dict.fromkeys(["least", "likely", "most", "short", "importance"], NUMBERS),
    **dict.fromkeys(["wet_least", "wet_likely", "wet_most", "wanted", "notice"], NUMBERS),
    "title": TEXTS,
    "who": ["", "second", "both", "either", "nobody"],
    "place": ["", "0", "-1", "barn", "999999999999999999999"],
    "droppable": ["", "true", "false", "maybe"],
    "kind": ["other", "rest", "ready", "nothing"],
    "left_out": ["on"],
    "loose": ["on"],
    "wet_left_out": ["on"],
}
VERBS = ["keep", "keep", "keep", "out", "back", "usual", "up", "down", "to", "add", "mend",
         "suggest", "let-go", "settings", "usual-order"]  # fmt: skip


def some_data(chance):
    picked = chance.sample(sorted(FIELDS), chance.randint(0, 6))
    return {name: chance.choice(FIELDS[name]) for name in picked}


def some_act(chance, keys, key):
    verb = chance.choice(VERBS)
    rest = chance.choice([*keys, f"{key}-golden", "gone", ""])
    extra = {"to": f":{chance.randint(0, 99)}", "mend": chance.choice([":out", ":at:900", ":at:x"])}
    return f"{verb}:{rest}{extra.get(verb, '')}"


@pytest.mark.parametrize("seed", range(2))
def test_no_sequence_of_acts_breaks_the_day_or_touches_the_couples_words(
    photographer, timed, other, seed
):
    chance = random.Random(seed)  # noqa: S311
    church = Place.objects.create(wedding=timed, key="church", name="St Elvin’s")
    Drive.objects.create(
        wedding=timed, origin=church, destination=timed.places.get(key="barn"), map_minutes=9
    )
    said = list(Moment.objects.values("key", "at", "kind", "title"))
    keys, day = [], timed.days.get()
    for _ in range(20):
        data = some_data(chance) | {
            "do": some_act(chance, keys, day.key),
            "day": chance.choice([day.key] * 9 + [other.days.get().key]),
        }
        if chance.random() < 0.5:
            data["place"] = str(church.pk)
        response = photographer.post(PAGE, data, follow=True)
        assert response.status_code == 200, data
        view = response.context["days"][0]
        assert view.verdict or not view.day.blocks
        keys = [row.block.key for row in view.rows]
    assert list(Moment.objects.values("key", "at", "kind", "title")) == said
    assert not BlockDecision.objects.filter(day__wedding=other).exists()
