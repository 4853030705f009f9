"""What can be settled on the Day screen, and what it answers to what cannot."""

from datetime import time

import pytest

from intake.models import Moment
from planning.brief import load_brief
from planning.compute.day import plan_wedding
from planning.models import BlockDecision, DayDecision, Drive
from tests.page import Page

PAGE = "/w/thora-lukasz/day"


@pytest.fixture
def tight(timed):
    """The same day with dinner too early."""
    Moment.objects.filter(key="dinner").update(at=time(15, 20))
    return timed


def planned(wedding):
    return plan_wedding(load_brief(wedding)).days[0]


def usual(wedding, kind):
    return f"{wedding.days.get().key}-{kind}"


def press(photographer, wedding, do, **data):
    data = {"do": do, "day": wedding.days.get().key} | data
    response = photographer.post(PAGE, data, follow=True)
    assert response.status_code == 200
    return " ".join(str(message) for message in response.context["messages"])


def words(photographer):
    return Page(photographer.get(PAGE)).words


def test_the_page_tells_the_verdict_the_chances_and_when_to_leave(photographer, timed):
    said = words(photographer)
    assert "Fits." in said
    assert "Ceremony at 14:00" in said
    assert "leave home: a third on the drive" in said


def test_a_day_that_does_not_fit_is_told_as_one_sum_with_its_repairs(photographer, tight):
    page = photographer.get(PAGE).content.decode()
    gap = planned(tight).shortfalls[0]
    assert f"Does not fit, {gap.short_minutes} minutes short." in page
    assert "Meal is at 15:20" in page
    assert 'value="mend:' in page


def test_each_repair_on_the_page_mends_the_day_and_touches_no_word_of_the_couples(
    photographer, tight
):
    view = photographer.get(PAGE).context["days"][0]
    offers = [offer for *_, offers in view.sums for offer in offers]
    assert offers
    for offer in offers:
        BlockDecision.objects.all().delete()
        told = press(photographer, tight, f"mend:{offer.value}")
        assert planned(tight).verdict in {"fits", "risky"}, offer
        assert "Fits" in told
    assert Moment.objects.get(key="dinner").at == time(15, 20)


def test_minutes_are_kept_and_what_moved_is_said(photographer, timed):
    groups = usual(timed, "portraits")
    told = press(photographer, timed, f"keep:{groups}", likely="60", most="80")
    assert "Kept: Portraits of the two." in told
    assert "Moved:" in told
    assert planned(timed).block(groups).minutes == 60
    decision = BlockDecision.objects.get()
    assert (decision.least, decision.likely, decision.most) == (15, 60, 80)


def test_an_empty_box_leaves_what_the_template_says(photographer, timed):
    key = usual(timed, "portraits")
    press(photographer, timed, f"keep:{key}", likely="60")
    press(photographer, timed, f"keep:{key}", likely="")
    assert planned(timed).block(key).minutes == 25


@pytest.mark.parametrize(
    ("typed", "wrong", "says"),
    [
        ({"least": "30", "likely": "20", "most": "40"}, "least", "more than the likely"),
        ({"likely": "30", "most": "20"}, "most", "less than the likely"),
        ({"likely": "1500"}, "likely", "1440"),
        ({"likely": "0"}, "likely", "leave it out instead"),
        ({"likely": "-5"}, "likely", "0"),
        ({"likely": "many"}, "likely", "number"),
        ({"short": "25"}, "short", "must be shorter"),
        ({"opens": "20:00", "closes": "19:00"}, "closes", "ends before it starts"),
        ({"at": "25:00"}, "at", "time like 14:30"),
        ({"at": "12:00", "opens": "13:00"}, "at", "outside"),
        ({"importance": "11"}, "importance", "10"),
        ({"place": "999"}, "place", "list"),
        ({"who": "nobody"}, "who", "list"),
        ({"title": "x" * 81}, "title", "80"),
    ],
)
def test_what_cannot_be_is_told_beside_its_box_and_everything_typed_stays(
    photographer, timed, typed, wrong, says
):
    before = planned(timed)
    key = usual(timed, "portraits")
    data = {"do": f"keep:{key}", "day": timed.days.get().key} | typed
    response = photographer.post(PAGE, data)
    row = next(r for r in response.context["days"][0].rows if r.block.key == key)
    assert says in " ".join(row.form.errors[wrong])
    assert {name: row.form[name].value() for name in typed} == typed
    assert f'<div id="more-{key}" class="settle">' in response.content.decode()
    assert "<title>Error:" in response.content.decode()
    assert planned(timed) == before
    assert "Orchard Barn" in response.content.decode()  # the plan that held is still there


def test_two_fixed_times_the_wrong_way_round_are_told_and_the_last_day_that_fitted_stays(
    photographer, timed
):
    press(photographer, timed, f"keep:{usual(timed, 'portraits')}", likely="25")
    press(photographer, timed, "keep:dinner", at="14:05")
    said = words(photographer)
    assert "Meal is at 14:05" in said
    assert "The day as it last fitted" in said
    assert "17:00" in " ".join(map(str, DayDecision.objects.get().held))


def test_a_time_settled_against_the_couples_is_a_decision_and_their_change_is_noticed(
    photographer, timed
):
    press(photographer, timed, "keep:dinner", at="17:10")
    assert Moment.objects.get(key="dinner").at == time(17)
    assert "now say" not in words(photographer)
    Moment.objects.filter(key="dinner").update(at=time(16, 30))
    assert "The couple now say Meal at 16:30. You settled it when they said 17:00." in words(
        photographer
    )
    assert f"{planned(timed).block('dinner').start:%H:%M}" == "17:10"


def test_a_block_is_left_out_and_put_back(photographer, timed):
    key = usual(timed, "details")
    assert "left out" in press(photographer, timed, f"out:{key}")
    assert planned(timed).block(key) is None
    assert "Left out" in words(photographer)
    assert "is back in the day" in press(photographer, timed, f"back:{key}")
    assert planned(timed).block(key) is not None


def test_what_is_settled_can_be_as_usual_again(photographer, timed):
    press(photographer, timed, "keep:dinner", at="17:10")
    assert "as usual again" in press(photographer, timed, "usual:dinner")
    assert not BlockDecision.objects.exists()


def test_a_block_moves_and_a_fixed_time_holds_it(photographer, timed):
    key, next_one = usual(timed, "portraits"), usual(timed, "details")
    assert "now follows" in press(photographer, timed, f"down:{key}")
    keys = [block.key for block in planned(timed).blocks]
    assert keys.index(next_one) < keys.index(key)
    assert "stays where it is" in press(photographer, timed, "up:dinner")
    press(photographer, timed, "usual-order")
    keys = [block.key for block in planned(timed).blocks]
    assert keys.index(key) < keys.index(next_one)


def test_a_block_of_her_own_is_added_changed_and_taken_away(photographer, timed):
    after = usual(timed, "portraits")
    told = press(photographer, timed, "add", kind="other", title="Ride", likely="12", follows=after)
    assert "“Ride” is in the day." in told
    key = BlockDecision.objects.get().key
    assert planned(timed).block(key).minutes == 12
    press(photographer, timed, f"keep:{key}", likely="20", title="Long ride")
    assert planned(timed).block(key).title == "Long ride"
    assert "gone" in press(photographer, timed, f"usual:{key}")
    assert planned(timed).block(key) is None


def test_a_day_takes_sixty_blocks_and_says_so(photographer, timed):
    day = timed.days.get()
    for number in range(60):
        BlockDecision.objects.create(
            day=day, key=f"own-{number}", kind="other", title="x", least=1, likely=1, most=1
        )
    told = press(photographer, timed, "add", kind="other", likely="5")
    assert "room for 60 blocks" in told
    assert BlockDecision.objects.count() == 60


def test_suggested_times_are_kept_until_they_are_let_go(photographer, timed):
    assert "suggested" in press(photographer, timed, "suggest")
    assert BlockDecision.objects.filter(wished__isnull=False).exists()
    assert planned(timed).verdict == "fits"
    press(photographer, timed, "let-go")
    assert not BlockDecision.objects.filter(wished__isnull=False).exists()


def test_nothing_is_suggested_for_a_day_that_does_not_fit(photographer, tight):
    assert "Mend it first" in press(photographer, tight, "suggest")


def test_how_sure_the_fixed_times_should_be_is_hers(photographer, timed):
    press(photographer, timed, "settings", wanted="99", notice="30")
    assert planned(timed).brief.wanted == 0.99
    told = press(photographer, timed, "settings", wanted="100", notice="30")
    assert "Nothing was changed" in told


def test_fair_and_wet_stand_side_by_side_with_the_minute_to_decide(photographer, timed):
    said = words(photographer)
    assert "The two plans part at" in said
    assert "Decide by" in said


def test_a_second_photographers_blocks_are_a_list_of_their_own(photographer, timed):
    press(photographer, timed, f"keep:{usual(timed, 'details')}", who="second")
    said = words(photographer)
    assert "The second photographer" in said
    assert planned(timed).block(usual(timed, "details")) is None


def test_a_drive_that_nobody_timed_has_a_row_of_its_own(photographer, timed):
    Drive.objects.all().delete()
    assert "Nobody has timed this drive." in words(photographer)


@pytest.mark.parametrize(
    "do",
    [
        "",
        "keep:",
        "keep:nothing",
        "out:gone",
        "up:gone",
        "to:dinner:x",
        "to:dinner:99999999",
        "mend:",
        "mend:dinner:out;bad",
        "mend:dinner:takes:9-9-9999",
        "mend:dinner:at:99999",
        "mend:gone:out",
        "mend:dinner:at:-9999999999999999999",
        "mend:dinner:takes:²-²-²",
        "nonsense",
        "add",
    ],
)
def test_what_nobody_can_press_changes_nothing(photographer, timed, do):
    press(photographer, timed, do)
    assert not BlockDecision.objects.exclude(least=9).exists() or do.startswith("add")


def test_another_weddings_day_is_not_touched(photographer, timed, other):
    response = photographer.post(PAGE, {"do": "suggest", "day": other.days.get().key}, follow=True)
    assert "Nothing was changed" in str(next(iter(response.context["messages"])))
    assert not BlockDecision.objects.exists()


def test_a_time_that_was_typed_is_neither_suggested_away_nor_let_go(photographer, timed):
    portraits = usual(timed, "portraits")
    press(photographer, timed, f"keep:{portraits}", wished="15:05")
    press(photographer, timed, "suggest")
    assert BlockDecision.objects.get(key=portraits).wished == time(15, 5)
    assert BlockDecision.objects.filter(suggested=True).exists()
    press(photographer, timed, "let-go")
    assert [d.key for d in BlockDecision.objects.all()] == [portraits]  # the rest says nothing


def test_a_suggested_time_that_is_typed_over_is_the_photographers(photographer, timed):
    press(photographer, timed, "suggest")
    key = BlockDecision.objects.filter(suggested=True).first().key
    press(photographer, timed, f"keep:{key}", wished="12:34")
    decision = BlockDecision.objects.get(key=key)
    assert (decision.wished, decision.suggested) == (time(12, 34), False)


def test_nothing_is_made_usual_that_is_so_already(photographer, timed):
    assert "usual already" in press(photographer, timed, "usual:nope")


def test_each_repair_says_what_it_is_worth(photographer, tight):
    offers = [
        offer for *_, offers in photographer.get(PAGE).context["days"][0].sums for offer in offers
    ]
    assert all(" in 100 days" in offer.worth for offer in offers)
    assert offers[0].worth in words(photographer)


def test_what_the_second_photographer_does_can_be_settled_and_taken_back(photographer, timed):
    portraits = usual(timed, "portraits")
    press(photographer, timed, f"keep:{portraits}", who="second")
    assert planned(timed).block(portraits) is None
    assert f"?change={portraits}" in photographer.get(PAGE).content.decode()
    opened = photographer.get(PAGE, {"change": portraits}).content.decode()
    assert f'value="keep:{portraits}"' in opened
    assert f'value="usual:{portraits}"' in opened
    told = press(photographer, timed, f"keep:{portraits}", who="second", likely="nonsense")
    assert "Nothing was changed" in told
    press(photographer, timed, f"usual:{portraits}")
    assert planned(timed).block(portraits) is not None


def test_what_has_no_time_left_can_still_be_settled(photographer, timed):
    rest = planned(timed).squeezed
    Moment.objects.filter(key="dinner").update(at=time(15, 20))
    squeezed = planned(timed).squeezed
    assert len(squeezed) > len(rest)
    key = squeezed[-1][0]
    page = photographer.get(PAGE, {"change": key}).content.decode()
    assert "No time is left for these" in page
    assert f'value="keep:{key}"' in page
