"""The ribbon: every block drawn, every label whole and on its own ground."""

import re
from dataclasses import replace
from datetime import date

from planning.compute.planned import Slack
from planning.compute.values import HOME
from planning.ribbon import ribbon_svg
from planning.ribbon_scale import LEFT, LETTER
from planning.ribbon_spare import ribbon_words

from .plans import make_block, make_plan

DAY = date(2027, 6, 12)


def draw(*times, zone="Europe/London"):
    blocks = [
        make_block(DAY, at, minutes, zone, key=at, title=title) for at, minutes, title in times
    ]
    return ribbon_svg(make_plan(*blocks, zone=zone).days[0])


def labels(svg):
    found = re.findall(r'<text x="([\d.]+)" y="(\d+)" fill="#22262B">([^<]+)</text>', svg)
    return [(float(x), int(y), text) for x, y, text in found]


def width_of(svg):
    return int(re.search(r'viewBox="0 0 (\d+) ', svg)[1])


def test_a_day_without_blocks_has_no_drawing():
    assert ribbon_svg(make_plan().days[0]) == ""


def test_labels_never_run_over_each_other_or_over_the_edge():
    svg = draw(*[(f"{hour}:{minute:02}", 10, f"A rather long title {hour}")
                 for hour in range(14, 20) for minute in (0, 12)])  # fmt: skip
    spots = labels(svg)
    assert len(spots) == 12
    for x, y, text in spots:
        assert x >= LEFT
        assert x + len(text) * LETTER <= width_of(svg) + 1
        others = [o for o in spots if o[1] == y and o[0] > x]
        assert all(x + len(text) * LETTER <= other[0] for other in others)


def test_no_leader_crosses_a_label():
    svg = draw(*[(f"{hour}:{minute:02}", 10, f"A rather long title {hour}")
                 for hour in range(14, 20) for minute in (0, 12)])  # fmt: skip
    leaders = re.findall(r'<line x1="([\d.]+)" x2="\1" y1="(\d+)" y2="(\d+)"', svg)
    assert len(leaders) == 12
    for x, top, bottom in leaders:
        crossed = [
            text
            for start, y, text in labels(svg)
            if start < float(x) < start + len(text) * LETTER and int(top) < y - 3 <= int(bottom)
        ]
        assert crossed == []


def test_the_hours_of_a_clock_change_are_drawn_as_they_pass():
    autumn = date(2027, 10, 31)  # at 02:00 the clock in London goes back to 01:00
    blocks = [
        make_block(autumn, "00:00", 30, "Europe/London", key="a", title="a"),
        make_block(autumn, "03:00", 30, "Europe/London", key="b", title="b"),
    ]
    svg = ribbon_svg(make_plan(*blocks).days[0])
    hours = re.findall(r'text-anchor="middle" fill="currentColor">(\d\d)<', svg)
    assert hours == ["00", "01", "01", "02", "03", "04"]


def test_what_couples_type_is_shown_as_text():
    svg = draw(("14:00", 120, "<script>alert(1)</script>"))
    assert "<script" not in svg
    assert "&lt;script&gt;" in svg


def spared(*stretches, minutes=(30, 5, 12)):
    """A day of fixed blocks with slack from each to the next."""
    blocks = [
        make_block(DAY, at, 10, "Europe/London", key=at, title=f"B{at}", fixed=True)
        for at in stretches
    ]
    (day,) = make_plan(*blocks).days
    pairs = zip(blocks[:-1], blocks[1:], minutes, strict=False)
    return replace(day, slack=tuple(Slack(*each) for each in pairs))


def brackets_of(svg):
    drawn = re.findall(r'class="spare" d="M([\d.]+) (\d+)v-5H([\d.]+)v5"', svg)
    return [(float(x), float(end)) for x, _y, end in drawn]


def spares(svg):
    return [text for _x, _y, text in labels(svg) if "spare" in text]


def test_the_time_to_spare_is_bracketed_from_one_fixed_time_to_the_next():
    svg = ribbon_svg(spared("11:00", "14:00", "16:00"))
    (first, until), (start, _end) = brackets_of(svg)
    assert until - first > start - until > 0
    assert [text for _x, _y, text in labels(svg) if "spare" in text] == [
        "30 to spare",
        "5 to spare",
    ]


def test_labels_of_narrow_brackets_stand_over_each_other_and_inside_the_drawing():
    svg = ribbon_svg(spared("11:00", "20:00", "20:12", "20:24"))
    spots = [spot for spot in labels(svg) if "spare" in spot[2]]
    assert len(spots) == 3
    for x, y, text in spots:
        assert x + len(text) * LETTER <= width_of(svg) + 1
        others = [o for o in spots if o[1] == y and o[0] > x]
        assert all(x + len(text) * LETTER <= other[0] for other in others)


def test_where_time_is_short_nothing_is_to_spare():
    svg = ribbon_svg(spared("11:00", "14:00", "16:00", minutes=(-9, 5)))
    assert spares(svg) == ["5 to spare"]


def test_the_time_to_spare_is_said_to_who_does_not_see_it():
    words = ribbon_words(spared("11:00", "14:00", "16:00", minutes=(1, 40)))
    assert "1 minute to spare before B14:00." in words
    assert "40 minutes to spare before B16:00." in words


def test_what_the_second_photographer_does_alone_has_lanes_and_bars_of_its_own():
    hers = make_block(DAY, "11:00", 60, "Europe/London", key="a", title="One side")
    both = make_block(DAY, "14:00", 60, "Europe/London", key="c", title="Vows", who="both")
    theirs = make_block(DAY, "10:00", 60, "Europe/London", key="b", title="Other", who="second")
    (day,) = make_plan(hers, both).days
    svg = ribbon_svg(replace(day, second=replace(day, blocks=(theirs, both))))
    assert svg.count("second photographer") == 1
    assert svg.count('stroke-dasharray="5 3"') == 1
    assert [text for _x, _y, text in labels(svg)].count("Vows") == 1
    assert min(x for x, _y, _text in labels(svg)) >= LEFT  # they begin before her


def test_the_lane_of_home_is_in_the_readers_words(monkeypatch):
    monkeypatch.setattr("planning.ribbon.gettext", {"Home": "Zuhause"}.get)
    night = make_block(DAY, "23:00", 30, "Europe/London", place=HOME, title="Charge")
    assert ">Zuhause<" in ribbon_svg(make_plan(night).days[0])


def test_a_long_name_of_a_place_stands_whole_on_two_lines():
    block = make_block(DAY, "14:00", 60, "Europe/London")
    place = replace(block.place, key="p1", name="The walled garden at Upper Quillow")
    svg = ribbon_svg(make_plan(replace(block, place=place)).days[0])
    assert re.findall(r'<text x="0"[^>]*>([^<]+)</text>', svg) == [
        "The walled garden at",
        "Upper Quillow",
    ]


def test_no_way_runs_through_a_label_below_its_block():
    svg = draw(("14:00", 5, "Eat, drink, sit down"), ("15:00", 60, "Vows"))
    way, paper = svg.index('stroke-dasharray="2 3"'), svg.index('fill-opacity="0.85"')
    assert way < paper < svg.index(">Eat, drink, sit down<")
