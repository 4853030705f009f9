"""What the couple remove never takes the photographer's decisions with it unseen."""

from datetime import date, time
from pathlib import Path

import pytest

from intake.models import Day, Group, Moment, Place
from planning import season
from planning.brief import load_brief
from planning.models import (
    BlockDecision,
    DayDecision,
    Decisions,
    Drive,
    GroupDecision,
    GroupRule,
    Hours,
    PlaceSpot,
)
from planning.taken_out_page import HELD
from tests.page import Page, fields, said

ANSWERS = "/w/thora-lukasz/answers"
STEP = "/q/thora-lukasz/step/"


def remove(couple, slug, prefix, key):
    """Tick a row for removal, as the couple do, and keep the page."""
    typed = fields(couple, STEP + slug)
    (name,) = [n for n, values in typed.items() if n.endswith("-key") and values == [key]]
    response = couple.post(STEP + slug, typed | {name.replace("key", "DELETE"): "on", "do": "save"})
    assert response.status_code == 302


def decide(photographer, do):
    return photographer.post(ANSWERS, {"do": do}, follow=True)


@pytest.fixture
def settled(timed):
    """A wedding about all of whose rows the photographer has settled something."""
    day, barn = timed.days.get(), timed.places.get()
    Day.objects.filter(pk=day.pk).update(key="june")
    PlaceSpot.objects.create(place=barn, latitude=52.5, longitude=-2.5, skyline=[[270, 12]])
    hall = Place.objects.create(wedding=timed, key="hall", name="Hall", position=1)
    Drive.objects.create(wedding=timed, origin=barn, destination=hall, map_minutes=12)
    Decisions.objects.filter(wedding=timed).update(visit_place=barn)
    DayDecision.objects.create(day=day, order=["vows", "dinner"])
    BlockDecision.objects.create(day=day, key="vows", likely=40, said=time(14), place=barn)
    BlockDecision.objects.create(day=day, key="june-portraits", likely=35)
    aunts = Group.objects.create(
        wedding=timed, key="aunts", title="Aunts", people="Ana\nBo", wish="must"
    )
    uncles = Group.objects.create(
        wedding=timed, key="uncles", title="Uncles", people="Cy", wish="must"
    )
    GroupDecision.objects.create(group=aunts, minutes="6.5")
    GroupRule.objects.create(wedding=timed, kind="before", one=aunts, other=uncles)
    return timed


def test_a_removed_day_keeps_its_hours_and_blocks_until_the_photographer_has_seen_it(
    couple, photographer, settled
):
    remove(couple, "day", "days", "june")
    assert not settled.days.exists()
    assert load_brief(settled).days == ()
    assert Hours.objects.get().starts == time(9)
    assert BlockDecision.objects.count() == 2
    words = said(photographer.get(ANSWERS))
    assert "Saturday 12 June 2027 is no longer a day of the wedding." in words
    for part in ("Hours: 09:00–22:30", "2 blocks settled", "The order of its blocks"):
        assert part in words


def test_a_removed_place_keeps_where_it_is_and_its_drives(couple, photographer, settled):
    remove(couple, "places", "places", "barn")
    assert [place.name for place in settled.places.all()] == ["Hall"]
    assert PlaceSpot.objects.get().skyline == [[270, 12]]
    words = said(photographer.get(ANSWERS))
    assert "“Orchard Barn” is no longer among the places." in words
    for part in (
        "Where it is on the map: 52.50000, -2.50000",
        "Its skyline",
        "2 drives timed",
        "1 block put there",
        "The venue visit",
    ):
        assert part in words


def test_a_removed_group_keeps_its_minutes_and_rules(couple, photographer, settled):
    remove(couple, "groups", "groups", "aunts")
    assert [group.title for group in settled.groups.all()] == ["Uncles"]
    words = said(photographer.get(ANSWERS))
    assert "“Aunts” is no longer among the groups." in words
    assert "7 minutes" in words  # rounded up, as everywhere
    assert "Aunts comes before Uncles" in words


def test_what_rests_on_a_removed_row_is_used_nowhere(couple, settled):
    """A drive from a place that is gone is no drive from home, and half a rule is none."""
    remove(couple, "places", "places", "barn")
    remove(couple, "groups", "groups", "aunts")
    brief = load_brief(settled)
    assert (brief.legs, brief.group_rules, brief.visit_place) == ((), (), None)
    assert brief.days[0].settled[0].place is None


def test_a_removed_row_about_which_nothing_is_settled_is_gone(couple, photographer, settled):
    remove(couple, "groups", "groups", "aunts")
    GroupRule.with_removed.all().delete()
    remove(couple, "groups", "groups", "uncles")
    assert Group.with_removed.filter(key="uncles").count() == 0


@pytest.mark.parametrize(
    ("slug", "prefix", "key"),
    [("day", "days", "june"), ("places", "places", "barn"), ("groups", "groups", "aunts")],
)
def test_put_back_all_is_as_it_was_and_removed_for_good_nothing_is_left(
    couple, photographer, settled, slug, prefix, key
):
    before = load_brief(settled)
    kind = prefix.removesuffix("s")
    remove(couple, slug, prefix, key)
    page = decide(photographer, f"bring-back:{kind}:{key}")
    assert "Back in the answers" in said(page)
    after = load_brief(settled)
    assert (after.places, after.legs, after.groups, after.group_rules) == (
        before.places, before.legs, before.groups, before.group_rules,
    )  # fmt: skip
    assert [(d.key, d.starts, d.settled, d.order) for d in after.days] == [
        (d.key, d.starts, d.settled, d.order) for d in before.days
    ]
    remove(couple, slug, prefix, key)
    page = decide(photographer, f"let-go:{kind}:{key}")
    assert "Removed, with what was settled about it." in said(page)
    assert "No longer in the answers" not in said(page)
    assert load_brief(settled).taken_out == ()
    gone = {"day": Hours, "place": PlaceSpot, "group": GroupDecision}[kind]
    assert not gone.objects.exists()


def test_a_page_that_was_open_at_the_partners_brings_a_removed_row_back_with_all_of_it(
    couple, settled
):
    open_before = fields(couple, STEP + "places")
    remove(couple, "places", "places", "barn")
    couple.post(STEP + "places", open_before | {"places-0-name": "The Barn", "do": "save"})
    (barn, _hall) = settled.places.all()
    assert (barn.name, barn.key, barn.spot.latitude) == ("The Barn", "barn", 52.5)
    assert load_brief(settled).taken_out == ()


def test_what_is_settled_about_a_time_that_is_gone_is_told_and_can_be_let_go(
    couple, photographer, settled
):
    remove(couple, "day", "moments", "vows")
    page = photographer.get(ANSWERS)
    assert "The time that was 14:00 is gone." in said(page)
    assert "40 minutes" in said(page)
    decision = BlockDecision.objects.get(key="vows")
    decide(photographer, f"let-go:time:{decision.pk}")
    assert [each.key for each in BlockDecision.objects.all()] == ["june-portraits"]
    assert "no longer" not in said(photographer.get(ANSWERS))


def test_a_time_that_moves_to_another_day_can_take_along_what_is_settled_about_it(
    photographer, settled
):
    sunday = Day.objects.create(wedding=settled, key="sunday", date=date(2027, 6, 13))
    Moment.objects.filter(key="vows").update(day=sunday)
    page = photographer.get(ANSWERS)
    assert "Now on Sunday 13 June 2027" in said(page)
    decision = BlockDecision.objects.get(key="vows")
    assert "goes with it" in said(decide(photographer, f"bring-back:time:{decision.pk}"))
    assert load_brief(settled).days[1].settled[0].minutes[1] == 40


def test_a_time_on_no_day_is_told_once_and_nothing_is_offered_for_it(photographer, settled):
    Day.objects.create(wedding=settled, key="sunday", date=date(2027, 6, 13))
    Moment.objects.filter(key="vows").update(day=None)
    words = said(photographer.get(ANSWERS))
    assert "belongs to no day" in words
    assert "No longer in the answers" not in words


@pytest.mark.parametrize(
    "do",
    ["", "let-go", "let-go:place:barn", "bring-back:place:theirplace", "let-go:time:999999",
     "let-go:time:x", "erase:place:barn", "let-go:wedding:1"],
)  # fmt: skip
def test_what_is_not_taken_out_cannot_be_removed_from_here(photographer, settled, other, do):
    PlaceSpot.objects.create(place=other.places.get(), latitude=1, longitude=1)
    other.places.get().take_out()
    page = decide(photographer, do)
    assert "Nothing was changed" in said(page)
    assert settled.places.count() == 2
    assert Place.with_removed.get(key="theirplace").removed_at


def test_a_day_that_the_photographer_takes_out_of_the_booking_can_be_put_back_too(
    photographer, settled
):
    typed = fields(photographer, "/w/thora-lukasz/booking")
    photographer.post("/w/thora-lukasz/booking", typed | {"days-0-DELETE": "on"})
    assert "12 June 2027 is no longer a day" in said(photographer.get(ANSWERS))
    decide(photographer, "bring-back:day:june")
    assert settled.days.get().hours.starts == time(9)


def test_a_removed_day_counts_nowhere(couple, photographer, settled):
    """The season sorts by dates that are there."""
    Day.objects.create(wedding=settled, key="august", date=date(2027, 8, 7))
    remove(couple, "day", "days", "june")
    words = said(photographer.get("/"))
    assert "7 August 2027 Þóra & Łukasz" in words


def test_wherever_weddings_are_looked_up_by_date_days_taken_out_are_left_out():
    for path in Path(season.__file__).parent.rglob("*.py"):
        text = path.read_text()
        assert "days__date" not in text or "days__removed_at" in text, path.name


def test_a_wedding_is_deleted_with_all_that_was_taken_out(couple, settled):
    for slug, prefix, key in [("day", "days", "june"), ("places", "places", "barn")]:
        remove(couple, slug, prefix, key)
    settled.delete()
    for model in (Day, Place, Group, Drive, GroupRule):
        assert not model.with_removed.exists()


def test_every_kind_of_row_that_is_kept_can_say_what_is_kept_with_it():
    from django.apps import apps

    from intake.row_models import Anchor

    kept = {m.__name__.lower() for m in apps.get_models() if issubclass(m, Anchor)}
    assert kept == set(HELD)


def test_the_page_of_answers_leads_from_the_finding_to_what_becomes_of_it(
    couple, photographer, settled
):
    remove(couple, "places", "places", "barn")
    page = Page(photographer.get(ANSWERS))
    assert f"{ANSWERS}#taken-out" in page.links
    assert "taken-out" in page.ids
