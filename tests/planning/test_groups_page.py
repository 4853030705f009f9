"""What can be done on the Groups screen, and what it answers to what cannot."""

from itertools import accumulate, pairwise, permutations

import pytest
from django.template.defaultfilters import floatformat
from django.utils import timezone

from intake.models import CareNote, Group
from planning.brief import load_brief
from planning.compute.day import plan_wedding
from planning.models import GroupDecision, GroupRule

PAGE = "/w/thora-lukasz/groups"


@pytest.fixture
def listed(wedding):
    for key, people in {"a": "Ana\nBo", "b": "Ana\nBo\nCy\nDi", "c": "Cy\nDi", "d": "Eva"}.items():
        Group.objects.create(
            wedding=wedding, key=key, title=key.upper(), people=people, wish="must"
        )
    return wedding


def keys(wedding):
    return [turn.group.key for turn in plan_wedding(load_brief(wedding)).turns]


def press(photographer, do, **data):
    response = photographer.post(PAGE, {"do": do} | data, follow=True)
    assert response.status_code == 200
    return " ".join(str(message) for message in response.context["messages"])


def test_largest_first_stands_until_the_best_order_is_taken(photographer, listed):
    assert keys(listed)[0] == "b"
    press(photographer, "by:best")
    assert "Proven best" in photographer.get(PAGE).content.decode()
    plan = plan_wedding(load_brief(listed))
    minutes = {turn.group.key: turn.minutes for turn in plan.turns}
    people = {group.key: group.people for group in plan.brief.groups}

    def cost(order):  # everybody waits to the end of their last, and each walk counts 0.2
        ends = dict(zip(order, accumulate(minutes[key] for key in order), strict=True))
        present = sum(
            max(ends[key] for key in order if person in people[key])
            for person in {name for names in people.values() for name in names}
        )
        walks = sum(len(set(people[a]) ^ set(people[b])) for a, b in pairwise(order))
        return present + 0.2 * walks

    best = min(cost(order) for order in permutations(minutes))
    assert cost(keys(listed)) == pytest.approx(best)


def test_a_move_makes_the_order_ours(photographer, listed):
    before = keys(listed)
    assert "is now number 2 of 4" in press(photographer, f"down:{before[0]}")
    assert keys(listed) == [before[1], before[0], *before[2:]]


@pytest.mark.parametrize(("do", "place"), [("to:c:1", 0), ("to:c:4", 3), ("to:c:99", 3)])
def test_a_group_goes_to_the_place_it_is_put(photographer, listed, do, place):
    press(photographer, do)
    assert keys(listed).index("c") == place


def test_a_group_listed_later_joins_an_order_made_by_hand(photographer, listed):
    press(photographer, "to:c:1")
    Group.objects.create(wedding=listed, key="e", title="E", people="Fay", wish="must")
    assert keys(listed)[0] == "c"
    assert set(keys(listed)) == set("abcde")


def test_left_out_is_left_out_of_minutes_and_papers_and_comes_back(photographer, listed):
    whole = plan_wedding(load_brief(listed)).group_minutes
    press(photographer, "out:b")
    assert "b" not in keys(listed)
    assert plan_wedding(load_brief(listed)).group_minutes < whole
    press(photographer, "back:b")
    assert plan_wedding(load_brief(listed)).group_minutes == whole


def test_first_and_last_are_rules_that_the_best_order_keeps(photographer, listed):
    press(photographer, "by:best")
    press(photographer, "pin:first:a")
    press(photographer, "pin:last:b")
    assert (keys(listed)[0], keys(listed)[-1]) == ("a", "b")
    press(photographer, "pin:first:c")
    assert keys(listed)[0] == "c"
    assert GroupRule.objects.filter(kind="first").count() == 1


@pytest.mark.parametrize("by", ["largest", "listed", "hand"])
def test_first_and_last_hold_in_every_order(photographer, listed, by):
    press(photographer, "to:b:2")
    press(photographer, f"by:{by}")
    press(photographer, "pin:first:d")
    press(photographer, "pin:last:a")
    assert (keys(listed)[0], keys(listed)[-1]) == ("d", "a")


def test_a_group_moved_by_hand_is_no_longer_pinned(photographer, listed):
    press(photographer, "pin:first:d")
    assert "is now number 3 of 4" in press(photographer, "to:d:3")
    assert keys(listed)[2] == "d"
    assert not GroupRule.objects.exists()


def test_a_second_first_says_whom_it_replaces(photographer, listed):
    press(photographer, "pin:first:d")
    assert "“D” no longer does" in press(photographer, "pin:first:a")


def test_a_rule_that_this_order_does_not_keep_says_so(photographer, listed):
    one, other = (listed.groups.get(key=key).pk for key in "da")
    said = press(photographer, "rule", kind="before", one=one, other=other)
    assert "in the best order, not in the one you look at" in said


def test_minutes_may_be_typed_with_a_comma_and_are_said_back(photographer, listed):
    assert "“A” takes 3.5 minutes" in press(photographer, "minutes", **{"minutes-a": "3,5"})
    assert "as they were" in press(photographer, "minutes", **{"minutes-a": "3.5"})


def test_a_rule_is_set_and_taken_away(photographer, listed):
    press(photographer, "by:best")
    one, other = (listed.groups.get(key=key).pk for key in "ad")
    press(photographer, "rule", kind="before", one=one, other=other)
    assert keys(listed).index("a") < keys(listed).index("d")
    press(photographer, f"unrule:{GroupRule.objects.get().pk}")
    assert not GroupRule.objects.exists()


@pytest.mark.parametrize(
    "data",
    [
        {"kind": "before", "one": "", "other": ""},
        {"kind": "before", "one": "999999", "other": "1"},
        {"kind": "free", "person": "", "position": "2"},
        {"kind": "free", "person": "Ana", "position": "-1"},
        {"kind": "free", "person": "Ana", "position": "two"},
        {"kind": "first"},
        {},
    ],
)
def test_a_rule_that_says_nothing_is_refused_in_words(photographer, listed, data):
    assert press(photographer, "rule", **data)
    assert not GroupRule.objects.exists()


def test_rules_that_clash_are_told_and_there_is_still_an_order(photographer, listed):
    one, other = (listed.groups.get(key=key).pk for key in "ad")
    press(photographer, "rule", kind="before", one=one, other=other)
    press(photographer, "rule", kind="before", one=other, other=one)
    page = photographer.get(PAGE).content.decode()
    assert "go round in a circle" in page
    assert sorted(keys(listed)) == list("abcd")


def test_our_own_minutes_count_and_an_empty_field_is_the_studios_figure(photographer, listed):
    press(photographer, "minutes", **{"minutes-a": "7.5"})
    assert GroupDecision.objects.get(group__key="a").minutes == 7.5
    press(photographer, "minutes", **{"minutes-a": ""})
    assert GroupDecision.objects.get(group__key="a").minutes is None


@pytest.mark.parametrize("minutes", ["-1", "0", "121", "many", "1e9", "٣"])
def test_minutes_that_make_no_sense_change_nothing(photographer, listed, minutes):
    said = press(photographer, "minutes", **{"minutes-a": minutes, "minutes-b": "5"})
    decided = GroupDecision.objects.exclude(minutes=None)
    assert decided.count() == 0 or minutes == "٣"
    assert said


@pytest.mark.parametrize(
    "do", ["", "up", "up:nobody", "to:a", "to:a:-1", "by:", "by:magic", "pin:up:a", "unrule:x",
           "presence:gone", "nonsense:a", "to:a:99999999999999999999"],
)  # fmt: skip
def test_what_no_button_says_changes_nothing_and_is_no_error(photographer, listed, do):
    before = keys(listed)
    assert press(photographer, do)
    assert keys(listed) == before


def test_two_spellings_are_one_person_only_when_we_say_so(photographer, listed):
    Group.objects.create(wedding=listed, key="x", title="X", people="Aunt Josephine", wish="must")
    Group.objects.create(wedding=listed, key="y", title="Y", people="Aunt Josefine", wish="must")
    names = {"name": "Aunt Josefine", "other": "Aunt Josephine"}
    assert 'value="join"' in photographer.get(PAGE).content.decode()
    press(photographer, "join", **names)
    press(photographer, "ask-again", **names)
    assert 'value="join"' in photographer.get(PAGE).content.decode()
    press(photographer, "join", **names)
    page = photographer.get(PAGE).content.decode()
    assert 'value="join"' not in page
    assert "count as one person" in page
    press(photographer, "by:best")
    order = keys(listed)
    assert abs(order.index("x") - order.index("y")) == 1


def test_called_when_needed_waits_less_than_gathered(photographer, listed):
    press(photographer, "by:best")
    gathered = plan_wedding(load_brief(listed)).order.chosen.waiting
    press(photographer, "presence:called")
    assert plan_wedding(load_brief(listed)).order.chosen.waiting <= gathered


def test_those_who_cannot_stand_long_wait_less(photographer, listed):
    press(photographer, "by:best")
    before = keys(listed).index("c")
    CareNote.objects.create(wedding=listed, person="Cy", kind="seat")
    assert keys(listed).index("c") <= before


def test_a_list_of_none_is_told_calmly(photographer, wedding):
    page = photographer.get(PAGE).content.decode()
    assert "have not listed their group photographs yet" in page
    wedding.steps.create(slug="groups", saved_at=timezone.now())
    assert "want no group photographs" in photographer.get(PAGE).content.decode()


def test_a_list_that_is_all_left_out_says_so(photographer, listed):
    for key in "abcd":
        press(photographer, f"out:{key}")
    assert "Every group is left out" in photographer.get(PAGE).content.decode()


def test_what_is_taken_if_there_is_time_comes_last_until_that_rule_is_taken_away(
    photographer, listed
):
    press(photographer, "by:best")
    listed.groups.filter(key="b").update(wish="nice")
    press(photographer, "nice:yes")
    assert keys(listed)[-1] == "b"
    assert "Proven best: no other order that keeps the rules" in (
        photographer.get(PAGE).content.decode()
    )
    press(photographer, "nice:no")
    assert keys(listed)[-1] != "b"
    press(photographer, "nice:yes")
    assert keys(listed)[-1] == "b"
    press(photographer, "pin:first:b")
    assert keys(listed)[0] == "b"


def test_everybody_waits_for_the_photograph_with_everybody_in_it(photographer, listed):
    listed.groups.filter(key="d").update(people="", everyone=True, extra=60)
    press(photographer, "by:listed")
    (last,) = [t for t in plan_wedding(load_brief(listed)).turns if t.group.key == "d"]
    assert last.free == ("Ana", "Bo", "Cy", "Di")
    assert last.extra == 56
    page = photographer.get(PAGE).content.decode()
    assert "everybody, about 60" in page
    assert "everybody else" in page


def test_the_difference_told_is_that_of_the_figures_beside_it(photographer, listed):
    page = photographer.get(PAGE)
    costs = page.context["order"].costs
    more = int(floatformat(costs["largest"].waiting, "0")) - int(
        floatformat(costs["best"].waiting, "0")
    )
    assert page.context["more"] == more


def test_minutes_typed_beside_another_button_are_kept(photographer, listed):
    press(photographer, "out:b", **{"minutes-a": "7"})
    assert GroupDecision.objects.get(group__key="a").minutes == 7


def test_what_was_refused_stays_in_its_box(photographer, listed):
    page = photographer.post(PAGE, {"do": "up:b", "minutes-a": "700"}).content.decode()
    assert 'value="700"' in page
    assert "minutes from 0.5 to 120" in page
    rule = {"do": "rule", "kind": "free", "person": "Nobody Such", "position": "2"}
    page = photographer.post(PAGE, rule).content.decode()
    assert 'value="Nobody Such"' in page


def test_an_older_page_wipes_no_minutes_it_does_not_know_of(photographer, listed):
    press(photographer, "minutes", **{"minutes-a": "7"})
    press(photographer, "minutes", **{"minutes-b": "5"})
    assert GroupDecision.objects.get(group__key="a").minutes == 7


def test_a_rule_about_nobody_is_refused(photographer, listed):
    assert "Nobody of that name" in press(
        photographer, "rule", kind="free", person="Nobody Such", position="2"
    )
    assert not GroupRule.objects.exists()
