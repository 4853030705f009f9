import json

import pytest

from planning.compute.order import (
    Apart,
    Before,
    First,
    Free,
    Last,
    Photograph,
    Problem,
    ProblemError,
    solve,
)
from planning.compute.order.reading import as_json, read

WHOLE = {
    "presence": "called",
    "walk_price": 0.2,
    "seconds": 2,
    "largest_first": True,
    "weights": {"Ana": 3},
    "groups": [
        {"id": "g1", "title": "Both", "people": ["Ana", "Bo"], "extra": 3, "minutes": 3.5},
        {"id": "g2", "people": ["Bo", "Cy"]},
    ],
    "rules": [
        {"before": "g1", "after": "g2"},
        {"first": "g1"},
        {"last": "g2"},
        {"free": "Ana", "by_position": 1},
        {"apart": ["Ana", "Cy"]},
    ],
}


def test_everything_the_format_may_say_is_read():
    assert read(json.dumps(WHOLE)) == Problem(
        (Photograph("g1", ("Ana", "Bo"), 3, 3.5, "Both"), Photograph("g2", ("Bo", "Cy"))),
        "called",
        0.2,
        2,
        True,
        {"Ana": 3},
        (Before("g1", "g2"), First("g1"), Last("g2"), Free("Ana", 1), Apart("Ana", "Cy")),
    )


def test_what_is_not_said_takes_the_defaults():
    problem = read('{"groups": [{"id": "a", "people": ["Ana", "Bo", "Ana"], "extra": 3}]}')
    assert problem == Problem((Photograph("a", ("Ana", "Bo"), 3),))
    assert problem.photographs[0].length == 3.0


def test_the_answer_has_every_field_of_the_format():
    printed = json.loads(
        json.dumps(as_json(read(json.dumps(WHOLE)), solve(read(json.dumps(WHOLE)))))
    )
    assert printed["order"] == ["g1", "g2"]
    assert printed["proof"] == "proven"
    assert printed["verdict"] == "proven best order that keeps as many of your rules as it can"
    assert printed["gap"] == 0.0
    assert printed["bound"] == printed["cost"]
    # Ana 3 x 3.5, Bo 3.5 + 2.7, Cy 2.7, three strangers 3 x 3.5; Ana and the strangers walk out,
    # Cy walks in.
    assert printed["presence_minutes"] == 10.5 + 6.2 + 2.7 + 10.5
    assert printed["waiting_minutes"] == 0
    assert printed["walks"] == 5
    assert printed["as_listed"] == printed["largest_first"]
    assert printed["freed"][0] == {"person": "Ana", "after_position": 1, "minute": 3.5}
    (fault,) = printed["faults"]
    assert fault["rules"] == [{"apart": ["Ana", "Cy"]}]
    assert fault["text"].startswith("Ana and Cy come one after the other")


GROUPS = '"groups": [{"id": "a", "people": ["Ana"]}]'


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "not JSON"),
        ("[" * 100_000, "not JSON"),
        ("[]", "must be a JSON object"),
        ("{}", 'no "groups"'),
        ('{"groups": {}}', "groups must be a list"),
        ('{"groups": []}', 'no "groups", or none in it'),
        ('{"groups": [], "rules": [{"first": "a"}]}', "none in it"),
        (json.dumps({"groups": [{"id": f"g{i}"} for i in range(251)]}), "more than 250 groups"),
        (
            json.dumps({"groups": [{"id": "a", "people": [str(i) for i in range(501)]}]}),
            "500 people",
        ),
        (f'{{{GROUPS}, "rules": {json.dumps([{"first": "a"}] * 501)}}}', "more than 500 rules"),
        (f'{{{GROUPS}, "seconds": 0.09}}', "seconds must be 0.1 or more"),
        (f'{{{GROUPS}, "seconds": -1}}', "seconds must be 0.1 or more"),
        (f'{{{GROUPS}, "seconds": Infinity}}', "seconds"),
        (f'{{{GROUPS}, "seconds": true}}', "seconds must be a number"),
        ('{"groups": [{"id": "a", "minutes": 1%s}]}' % ("0" * 5000), "not JSON"),
        ('{"groups": [{"id": "a", "minutes": 1%s}]}' % ("0" * 50), "far too big"),
        ('{"groups": [{"id": "a", "minutes": -Infinity}]}', "minutes"),
        ('{"groups": [{"id": "%s"}]}' % ("a" * 201), "more than 200 letters"),
        ('{"groups": [{"id": "a\\u001b[2J"}]}', "control character"),
        ('{"groups": [{"id": "a", "title": "\\ud800"}]}', "half a letter"),
        (f'{{{GROUPS}, "weights": {{"{"x" * 5000}": 1}}}}', "more than 200 letters"),
        (f'{{{GROUPS}, "weights": {{"Ana": NaN}}}}', 'weight of "Ana"'),
        (f'{{{GROUPS}, "rules": [{{"last": "b"}}]}}', 'group "b", not in the list'),
        (f'{{{GROUPS}, "rules": [{{"before": "a", "after": "b"}}]}}', 'group "b"'),
        (f'{{{GROUPS}, "rules": [{{"first": []}}]}}', "rule 1"),
        ('{"groups": [1]}', "group 1 must be a JSON object"),
        ('{"groups": [{"people": []}]}', "id of group 1"),
        ('{"groups": [{"id": "a"}, {"id": "a"}]}', 'two groups have the id "a"'),
        ('{"groups": [{"id": "a", "minutes": -1}]}', 'minutes of group "a"'),
        ('{"groups": [{"id": "a", "minutes": 0}]}', 'minutes of group "a"'),
        ('{"groups": [{"id": "a", "minutes": "3"}]}', "minutes of group 1 must be a number"),
        ('{"groups": [{"id": "a", "minutes": 1e400}]}', "minutes"),
        ('{"groups": [{"id": "a", "extra": -1}]}', "extra people"),
        ('{"groups": [{"id": "a", "extra": 1.5}]}', "whole number"),
        ('{"groups": [{"id": "a", "people": "Ana"}]}', "people must be a list"),
        ('{"groups": [{"id": "a", "people": [""]}]}', "a person in group 1"),
        ('{"groups": [{"id": "a", "poeple": []}]}', "poeple"),
        (f'{{{GROUPS}, "presence": "later"}}', "presence"),
        (f'{{{GROUPS}, "presence": ["called"]}}', "presence"),
        (f'{{{GROUPS}, "seconds": 0}}', "seconds"),
        (f'{{{GROUPS}, "seconds": NaN}}', "seconds"),
        (f'{{{GROUPS}, "walk_price": -0.1}}', "walk_price"),
        (f'{{{GROUPS}, "walk_price": true}}', "walk_price"),
        (f'{{{GROUPS}, "largest_first": 1}}', "largest_first"),
        (f'{{{GROUPS}, "weights": {{"Bo": 1}}}}', 'weights name "Bo"'),
        (f'{{{GROUPS}, "weights": {{"Ana": -1}}}}', 'weight of "Ana"'),
        (f'{{{GROUPS}, "rules": [{{"first": "b"}}]}}', 'group "b", not in the list'),
        (f'{{{GROUPS}, "rules": [{{"before": "a"}}]}}', "rule 1 is none of"),
        (f'{{{GROUPS}, "rules": [{{"free": "Bo", "by_position": 1}}]}}', '"Bo"'),
        (f'{{{GROUPS}, "rules": [{{"free": "Ana", "by_position": "1"}}]}}', "by_position"),
        (f'{{{GROUPS}, "rules": [{{"apart": ["Ana"]}}]}}', "two people"),
        (f'{{{GROUPS}, "rules": [{{"apart": ["Ana", "Ana"]}}]}}', "same person"),
        (f'{{{GROUPS}, "rules": ["first"]}}', "rule 1 must be a JSON object"),
        (f'{{{GROUPS}, "walk": 1}}', '"walk"'),
    ],
)
def test_what_makes_no_sense_is_told_in_one_line(text, says):
    with pytest.raises(ProblemError) as caught:
        solve(read(text))
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)


def test_the_longest_list_may_be_given_and_needs_its_seconds():
    people = [f"p{i}" for i in range(400)]
    groups = [{"id": f"g{i}", "people": people} for i in range(200)]
    assert len(read(json.dumps({"groups": groups})).photographs) == 200
    with pytest.raises(ProblemError, match=r"seconds must be 0\.6 or more for a list of this size"):
        read(json.dumps({"groups": groups, "seconds": 0.5}))


def test_any_list_that_may_be_given_may_have_the_seconds_nobody_gave():
    people = [f"p{i}" for i in range(500)]
    groups = [{"id": f"g{i}", "people": people} for i in range(250)]
    rules = [{"before": "g0", "after": "g1"}] * 500
    assert read(json.dumps({"groups": groups, "rules": rules})).seconds == 1.0
    small = {"groups": groups[:3], "rules": rules[:5], "seconds": 0.1}
    assert read(json.dumps(small)).seconds == 0.1


def test_a_deadline_far_outside_the_list_is_no_error():
    for position, codes in ((0, ["too_soon"]), (-5, ["too_soon"]), (10**9, [])):
        rules = [{"free": "Ana", "by_position": position}]
        answer = solve(read(json.dumps({"groups": WHOLE["groups"], "rules": rules})))
        assert [fault.code for fault in answer.faults] == codes
