"""Lists as couples paste them, and the groups that a photographer would write down from them."""

import re
from pathlib import Path
from time import process_time

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from intake.pasted import PastedGroup, read_groups
from intake.pasted_people import Reader

COUPLE = ("Anna", "Ben")
LISTS = (Path(__file__).parent / "pasted_lists.txt").read_text().split("tab.\n", 1)[1]


def expected(line):
    title, people, *more = re.split(r"\s*\|\s*", line)
    names = tuple(name.strip() for name in people.split(",") if name.strip())
    return PastedGroup(title, names, int(more[0]) if more else 0, "all" in more)


def cases():
    for block in LISTS.split("\n----\n"):
        lines = block.strip("\n").split("\n")
        pasted = [line for line in lines if not line.startswith(("=> ", "<= "))]
        groups = [expected(line[3:]) for line in lines if line.startswith("=> ")]
        left = [line[3:].replace("\\t", "\t") for line in lines if line.startswith("<= ")]
        yield "\n".join(pasted).replace("\\t", "\t"), groups, left


CASES = list(cases())


def test_there_are_two_hundred_lists_and_no_two_are_alike():
    assert len({text for text, _groups, _left in CASES}) == len(CASES) >= 200


@pytest.mark.parametrize(("text", "groups", "left"), CASES, ids=[text for text, _g, _l in CASES])
def test_a_pasted_list_becomes_the_groups_that_were_meant(text, groups, left):
    pasted = read_groups(text, COUPLE)
    assert pasted.groups == groups
    assert pasted.left_out == left


PIECES = ["Us", "wir", "Maria", "Jon", "parents", "Eltern", "everybody", "x12", "(12)", "(4", "12"]
PIECES += [", ", " + ", " & ", ": ", " - ", "; ", "\n", "\n\n", "\t", "    ", " and ", " y ", "1. "]
PIECES += [
    "- ",
    "• ",
    "# ",
    "**",
    "etc",
    "Group photos:",
    "Thanks",
    "Hi",
    "\ue0005\ue001",
    "ß",
    "İ",
]
TEXTS = st.one_of(st.text(max_size=60), st.lists(st.sampled_from(PIECES), max_size=14).map("".join))


@settings(suppress_health_check=[HealthCheck.too_slow])  # a busy machine is no fault of the text
@given(text=TEXTS)
def test_any_text_can_be_pasted_and_no_word_of_it_vanishes(text):
    pasted = read_groups(text, COUPLE)
    said = " ".join(
        [*pasted.left_out, *(f"{g.title} {' '.join(g.people)}" for g in pasted.groups)]
    ).casefold()
    ticked = any(g.everyone for g in pasted.groups)
    for word in re.findall(r"[^\W\d_]{4,}", text):
        assert word.casefold() in said or (ticked and means_everybody(word))
    assert all(g.title and 0 <= g.extra < 1000 for g in pasted.groups)


def means_everybody(word):
    """A box on the page says it then: "Everybody is in this one"."""
    return any(group.everyone for group in read_groups(word, COUPLE).groups)


LONG = [
    "Ada, " * 8_000,
    ", ".join(f"Ada {number}" for number in range(4_000)),
    "(" * 40_000,
    "x" * 40_000,
    "Us + Ada\n" * 4_000,
    "a" + " " * 40_000 + "b",
    "1. " * 13_000,
]


@pytest.mark.parametrize("text", LONG, ids=[text[:9] for text in LONG])
def test_as_much_as_can_be_pasted_is_read_within_the_patience_of_a_page(text):
    began = process_time()
    read_groups(text, COUPLE)
    assert process_time() - began < 10  # a fraction of a second; a slip of a pattern takes hours


def test_a_line_of_thousands_is_not_gone_through_anew_for_each_of_them(monkeypatch):
    """Eight seconds of them were seen for one page, while everybody else's waited."""
    gone_through, once = [], Reader._without
    monkeypatch.setattr(
        Reader, "_without", lambda *given: gone_through.append(given[1]) or once(*given)
    )
    text = "a" + "+ 1 " * 10_000
    assert len(read_groups(text[:40_000], COUPLE).groups) == 1
    read_groups(text[:1_000], COUPLE)
    assert 0 < sum(map(len, gone_through)) < 50 * len(text)


def test_nothing_is_no_group():
    assert read_groups("", COUPLE).groups == []
    assert read_groups(" \n\t\n--\n", COUPLE).groups == []
