"""What may be done with the pictures, as findings: silent where it is said or does not apply."""

from dataclasses import replace

import pytest

from planning.compute.check_sharing import children_shown, online_sharing
from planning.compute.planned import Plan
from planning.compute.values import Allowed, Care

from .briefs import make_brief


def said(check, *allowed, cares=(), not_asked=()):
    brief = make_brief(allowed=tuple(Allowed(*each) for each in allowed), cares=cares)
    plan = Plan(replace(brief, not_asked=frozenset(not_asked)), (), ())
    return [(f.weight, f.message % f.values) for f in check(plan)]


@pytest.mark.parametrize("answer", ["yes", "no", "ask"])
def test_an_answer_is_no_finding(answer):
    assert said(online_sharing, ("online", answer)) == []


def test_nothing_said_is_missing_and_undecided_is_a_look():
    assert said(online_sharing)[0][0] == "missing"
    assert said(online_sharing, ("online", "undecided"))[0][0] == "look"
    assert said(online_sharing, not_asked=["step.sharing"]) == []


CHILD = (Care("child", "Zosia"), Care("child", "Antoni"), Care("seat", "Oma"))


@pytest.mark.parametrize("online", ["yes", "ask"])
@pytest.mark.parametrize(
    ("children", "words"), [("", "nobody has said so"), ("no", "unless"), ("ask", "unless")]
)
def test_children_are_named_where_photographs_may_be_shown(online, children, words):
    ((weight, text),) = said(
        children_shown, ("online", online), ("children", children), cares=CHILD
    )
    assert weight == "look"
    assert words in text
    assert "Zosia, Antoni" in text


def test_children_are_no_finding_where_nothing_is_shown_or_their_parents_agreed():
    for allowed in ([("online", "no")], [], [("online", "yes"), ("children", "yes")]):
        assert said(children_shown, *allowed, cares=CHILD) == []
    assert said(children_shown, ("online", "yes"), cares=CHILD[2:]) == []
    hidden = ["wedding.children"]
    assert said(children_shown, ("online", "yes"), cares=CHILD, not_asked=hidden) == []
