"""Whose answer is kept where two people had one page open. Pure."""

import pytest

from intake.merging import join, mark, read_marks, who_gives_way, write_marks

A, B, C = "aaaaaaaa", "bbbbbbbb", "cccccccc"


@pytest.mark.parametrize(
    ("was", "now", "ours", "side"),
    [
        (A, A, A, "ours"),  # nobody changed it
        (A, A, B, "ours"),  # only we did
        (A, B, A, "theirs"),  # only they did
        (A, B, B, "ours"),  # both, to the same
        (A, B, C, "clash"),
        (None, B, C, "clash"),  # the page had never shown it
    ],
)
def test_whoever_changed_nothing_gives_way(was, now, ours, side):
    assert who_gives_way(was, now, ours, empty=False, pick="") == side


def test_an_empty_box_that_had_shown_nothing_gives_way():
    assert who_gives_way(None, A, B, empty=True, pick="") == "theirs"
    assert who_gives_way(A, B, C, empty=True, pick="") == "clash"  # emptied on purpose


@pytest.mark.parametrize("side", ["ours", "theirs", "both"])
def test_a_pick_counts_for_what_it_was_made_against_only(side):
    assert who_gives_way(A, B, C, empty=False, pick=f"{side}-{B}") == side
    assert who_gives_way(A, B, C, empty=False, pick=f"{side}-{A}") == "clash"
    assert who_gives_way(A, B, C, empty=False, pick=side) == "clash"


def test_a_pick_of_nothing_that_is_offered_is_none():
    assert who_gives_way(A, B, C, empty=False, pick=f"clash-{B}") == "clash"
    assert who_gives_way(A, B, C, empty=False, pick=f"-{B}") == "clash"


def test_marks_travel_and_forged_ones_are_dropped():
    marks = {"title": mark("Parents"), "coordinator_phone": mark("")}
    assert read_marks(write_marks(marks)) == marks
    assert read_marks("") == {}
    assert read_marks("0123456789abcdef") == {}
    assert read_marks("--a-b-c--title-x") == {"title": "x"}


def test_a_trip_through_a_browser_leaves_the_mark():
    assert mark("Ada\nBo") == mark("Ada\r\nBo\r\n")
    assert mark(None) == mark("")
    assert mark("Ada") != mark("ada")


def test_joined_words_hold_every_line_of_both_once():
    assert join("Ada\nBo", "Ada\nCy") == "Ada\nBo\nCy"
    assert join("", "Ada") == "Ada"
