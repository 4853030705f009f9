"""What people type into a box of names, and what we take it to mean."""

import pytest

from intake.names import split_names, tidy


def test_one_name_a_line_keeps_order_and_spelling():
    assert split_names("Łukasz Žáček\nÞóra\nMÜLLER") == ["Łukasz Žáček", "Þóra", "MÜLLER"]


@pytest.mark.parametrize(
    "typed",
    [
        "Ana\nBo",
        "Ana\r\nBo\r\n",
        "\n\n Ana \n\t\nBo",
        "- Ana\n- Bo",
        "• Ana\n* Bo",
        "1. Ana\n2) Bo",
        "Ana, Bo",
        "Ana; Bo,",
        "Ana،Bo",
        "Ana、Bo",
        "Ana\u2028Bo",
    ],
)
def test_every_way_to_write_a_list_gives_the_same_two_names(typed):
    assert split_names(typed) == ["Ana", "Bo"]


@pytest.mark.parametrize(
    "name",
    [
        "O’Neill",
        "Anne-Marie",
        "2 cousins",
        "Ngô Thảo Vy",
        "J. R. Obi",
        "👰🏽‍♀️ Kim",
        "שרה",
        "٣ أصدقاء",
    ],
)
def test_a_name_stays_as_it_was_typed(name):
    assert split_names(name) == [name]


@pytest.mark.parametrize(
    "nothing", ["", " ", "-", "…", "\u200b", "\u200f\u200e", "(?)", ", ,", "•"]
)
def test_a_line_without_a_letter_or_figure_is_no_name(nothing):
    assert tidy(nothing) == ""
    assert split_names(f"Ana\n{nothing}\nBo") == ["Ana", "Bo"]


def test_white_space_inside_a_name_is_one_space():
    assert tidy("  Þóra\u00a0 \tSigurðardóttir ") == "Þóra Sigurðardóttir"


def test_three_hundred_names_are_three_hundred_names():
    names = [f"Guest {i}" for i in range(300)]
    assert split_names("\n".join(names)) == names


def test_tidying_twice_changes_nothing():
    once = split_names("1. Ana\n2) - Bo.\n•  Cy, *Di*\n3. 2 cousins")
    assert once == ["Ana", "Bo", "Cy", "Di", "2 cousins"]
    assert split_names("\n".join(once)) == once
