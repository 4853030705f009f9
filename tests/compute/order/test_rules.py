from dataclasses import replace

from planning.compute.order import (
    Apart,
    Before,
    First,
    Free,
    Last,
    Photograph,
    Problem,
    solve,
)


def listed(people, **options):
    """One photograph of three minutes for each entry."""
    photographs = tuple(
        Photograph(key, tuple(who), minutes=3, title=key.upper()) for key, who in people.items()
    )
    return solve(Problem(photographs, **options))


def faults_of(answer):
    return [(fault.code, fault.text) for fault in answer.faults]


def test_rules_in_a_circle_are_told_with_just_the_rules_that_clash():
    rules = (Before("a", "b"), Before("d", "c"), Before("b", "c"), Before("c", "a"))
    answer = listed({"a": "A", "b": "B", "c": "C", "d": "D"}, rules=rules)
    (fault,) = answer.faults
    assert fault.code == "circle"
    assert fault.rules == (rules[0], rules[2], rules[3])
    assert fault.text == (
        'These rules go round in a circle: "A" before "B"; "B" before "C"; "C" before "A". '
        "The last of them is set aside."
    )
    place = {key: i for i, key in enumerate(answer.order)}
    assert place["a"] < place["b"] < place["c"]
    assert place["d"] < place["c"]
    assert answer.proven


def test_two_photographs_cannot_both_be_first():
    answer = listed({"a": "A", "b": "B"}, rules=(First("b"), First("a")))
    assert answer.order[0] == "b"
    assert answer.faults[0].rules == (First("b"), First("a"))


def test_a_photograph_cannot_come_before_itself():
    answer = listed({"a": "A", "b": "B"}, rules=(Before("a", "a"),))
    assert faults_of(answer) == [
        ("circle", 'No photograph can come before itself: "A" before "A" is set aside.')
    ]


def test_a_person_in_more_photographs_than_allowed_is_told():
    answer = listed({"a": "A", "b": "AB", "c": "AC"}, rules=(Free("A", 2),))
    assert faults_of(answer) == [
        (
            "too_soon",
            "A is in 3 photographs and cannot be free by photograph 2: the rule is set aside.",
        )
    ]


def test_deadlines_that_clash_only_together_are_told_together():
    rules = (Free("A", 2), Last("c"), Free("B", 2))
    answer = listed({"a": "A", "b": "AB", "c": "C", "d": "B"}, rules=rules)
    (fault,) = answer.faults
    assert fault.code == "too_soon"
    assert fault.rules == (rules[0], rules[2])


def test_what_has_to_come_before_a_deadline_counts():
    rules = (Before("b", "a"), Before("c", "a"), Free("A", 2))
    answer = listed({"a": "A", "b": "B", "c": "C"}, rules=rules)
    assert answer.faults[0].rules == rules


def test_people_kept_apart_who_share_a_frame_are_told():
    answer = listed({"a": "AB", "c": "C", "d": "D"}, rules=(Apart("A", "B"),))
    assert faults_of(answer) == [
        (
            "same_frame",
            'A and B are to be kept apart, yet both stand in "A": no order can change that.',
        )
    ]


def test_people_who_cannot_be_kept_apart_are_told_where_they_meet():
    answer = listed({"a": "A", "b": "B"}, rules=(Apart("A", "B"),))
    (fault,) = answer.faults
    assert fault.code == "neighbours"
    assert fault.text.startswith('A and B come one after the other in "A" and "B": no order')
    assert answer.proven


def test_somebody_stands_between_people_kept_apart():
    answer = listed({"a": "A", "b": "B", "c": "C"}, rules=(Apart("A", "B"),))
    assert answer.order[1] == "c"
    assert not answer.faults


def test_largest_first_gives_way_to_the_other_rules_and_holds_for_the_rest():
    answer = listed(
        {"s": "A", "m": "BC", "l": "DEF", "t": "G"}, largest_first=True, rules=(First("s"),)
    )
    assert answer.order == ("s", "l", "m", "t")
    (fault,) = answer.faults
    assert fault.code == "largest_first"
    assert '"S" may come before "L"' in fault.text


def test_many_clashes_are_all_told():
    pairs = [(f"g{i}", f"g{j}") for i in range(8) for j in range(8) if i != j]
    rules = tuple(Before(*pair) for pair in pairs)
    answer = listed({f"g{i}": f"{i}" for i in range(8)}, rules=rules)
    assert len(answer.faults) == len(pairs) // 2
    assert {fault.code for fault in answer.faults} == {"circle", "set_aside"}


def test_people_kept_apart_may_both_stand_in_a_crowd_and_right_after_it():
    problem = Problem(
        (
            Photograph("all", ("A", "B", "C"), minutes=5),
            Photograph("a", ("A", "C"), minutes=3),
            Photograph("b", ("B",), minutes=3),
        ),
        rules=(Apart("A", "B", crowds=("all",)), First("all")),
    )
    assert [fault.code for fault in solve(problem).faults] == ["neighbours"]
    without = replace(problem, rules=(Apart("A", "B"), First("all")))
    assert {fault.code for fault in solve(without).faults} == {"same_frame", "neighbours"}
