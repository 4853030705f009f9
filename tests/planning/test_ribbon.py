"""The ribbon: every block drawn, every label whole and on its own ground."""

import re
from datetime import date

from planning.ribbon import LEFT, LETTER, ribbon_svg

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
