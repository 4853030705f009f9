"""The pages' style has a start and an end, and no left and right, so that it mirrors by itself."""

import re
from pathlib import Path

STATIC = Path(__file__).parent.parent / "static"
STYLE = "".join((STATIC / name).read_text() for name in ("site.css", "phone.css"))
RULES = re.findall(r"([\w-]+): ([^;{}]+)", re.sub(r"/\*.*?\*/", "", STYLE, flags=re.DOTALL))


def test_nothing_is_said_of_left_and_right():
    sided = [rule for rule in RULES if re.search(r"\b(left|right)\b", " ".join(rule))]
    assert len(RULES) > 300
    assert sided == []


def test_what_lies_at_both_sides_is_the_same_where_one_rule_says_it():
    boxes = [(name, value.split()) for name, value in RULES if name in {"margin", "padding"}]
    assert [box for box in boxes if len(box[1]) == 4 and box[1][1] != box[1][3]] == []
