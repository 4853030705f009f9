"""How many people stand in each group, as the couple's step counts them."""

import re

from intake.models import Group
from intake.sizes import kept_sizes
from tests.page import fields

from .group import GROUPS, kept


def keep(wedding, *rows):
    for i, (people, extra, everyone) in enumerate(rows):
        Group.objects.create(
            wedding=wedding, key=f"g{i}", title=f"G{i}", people=people, extra=extra,
            everyone=everyone, wish="must",
        )  # fmt: skip


def test_names_count_once_and_the_unnamed_beside_them(wedding):
    keep(wedding, ("Ana\nBo\nana", 4, False))
    assert kept_sizes(wedding) == [6]


def test_everybody_is_the_head_count_or_all_who_are_named(wedding):
    keep(wedding, ("Ana\nBo", 0, False), ("Cy", 0, False), ("", 60, True), ("", 0, True))
    assert kept_sizes(wedding) == [2, 1, 60, 3]


def test_nobody_is_no_group(wedding):
    keep(wedding, ("", 0, False))
    assert kept_sizes(wedding) == []


def test_a_tick_for_everybody_is_enough_and_is_there_again_on_return(couple, wedding):
    data = fields(couple, GROUPS) | {"groups-0-title": "All", "groups-0-everyone": "on"}
    assert kept(couple.post(GROUPS, data))
    assert wedding.groups.get().everyone
    page = couple.get(GROUPS).content.decode()
    assert re.search(r'name="groups-0-everyone"[^>]*checked', page)
