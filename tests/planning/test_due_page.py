"""What is due next across all weddings, and what clashes in the season."""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from intake.models import Day, Moment, Partner, Place, Wedding
from planning.due_page import MOST_WEDDINGS, due_page
from planning.kit_models import BagLine, KitItem
from planning.models import Decisions, Hours, PlaceSpot, Policy, ReadyItem, ReadyTick
from planning.season_days import season_clashes
from studio.models import Studio
from tests.page import Page, said

TODAY = date(2027, 6, 1)
NOW = datetime(2027, 6, 1, 12, tzinfo=UTC)
EDINBURGH, CARDIFF = (55.9533, -3.1883), (51.4816, -3.1791)


@pytest.fixture(autouse=True)
def studio(db):
    """It needs no insurance, so that a test which says nothing of it hears nothing of it."""
    return Studio.objects.create(name="Marigold Lane", zone="Europe/London", insurance=[])


def book(name, day, begins=time(10), ends=time(22), spot=None, zone="Europe/London", **wedding):
    made = Wedding.objects.create(zone=zone, **wedding)
    Wedding.objects.filter(pk=made.pk).update(created_at=datetime(2025, 1, 1, tzinfo=UTC))
    Partner.objects.create(wedding=made, name=name, key="p")
    row = Day.objects.create(wedding=made, date=day, key="d1")
    if begins:
        Hours.objects.create(day=row, starts=begins, ends=ends)
    Decisions.objects.create(wedding=made)
    if spot:
        place = Place.objects.create(wedding=made, name="Mill", key="m")
        PlaceSpot.objects.create(place=place, latitude=spot[0], longitude=spot[1])
    return made


def insure(**studio):
    Studio.objects.update(insurance=["liability"])
    return Policy.objects.create(
        key="p",
        kind="liability",
        insurer="Larkmoor",
        starts=date(2026, 1, 1),
        ends=date(2027, 6, 20),
    )


def told():
    return [each.words for each in due_page(NOW)["clashes"]]


def late():
    return [(line.names, line.entry.key) for line in due_page(NOW)["late"]]


def test_what_is_late_anywhere_stands_first_the_longest_waiting_on_top():
    book("Ana", TODAY + timedelta(days=20))
    book("Bo", TODAY + timedelta(days=40))
    found = late()
    assert {name for name, _key in found} == {"Ana", "Bo"}
    dues = [line.entry.due for line in due_page(NOW)["late"]]
    assert dues == sorted(dues)
    assert found[0] == ("Ana", "contract")


def test_a_tick_takes_it_off():
    wedding = book("Ana", TODAY + timedelta(days=20))
    ReadyTick.objects.create(wedding=wedding, key="contract", state="done", at=NOW)
    assert ("Ana", "contract") not in late()


def test_what_is_due_within_two_weeks_follows_and_the_rest_does_not():
    book("Ana", TODAY + timedelta(days=13))
    book("Far", TODAY + timedelta(days=99))  # the contract is due in 15 days
    soon = {(line.names, line.entry.key) for line in due_page(NOW)["soon"]}
    assert ("Ana", "bag.d1") in soon
    assert {name for name, _key in soon} == {"Ana"}


def test_a_line_of_the_studios_own_that_is_due_early_is_found_though_the_wedding_is_far():
    ReadyItem.objects.create(title="Deposit asked for", days=360)
    book("Far", TODAY + timedelta(days=365))
    assert [line.title for line in due_page(NOW)["soon"]] == ["Deposit asked for"]


def test_the_copies_of_last_week_are_still_asked_for():
    book("Ana", TODAY - timedelta(days=4))
    assert late() == [("Ana", "copies.d1"), ("Ana", "elsewhere.d1")]


def test_each_wedding_is_told_in_words():
    book("Ana", TODAY + timedelta(days=60))
    (standing,) = due_page(NOW)["standings"]
    assert standing.words.startswith("2 things are late, the rest has time")


def test_the_page_leads_to_the_line_itself(photographer):
    wedding = book("Ana", timezone.localdate() + timedelta(days=20))
    page = Page(photographer.get("/due"))
    assert f"/w/{wedding.public_id}/ready#line-contract" in page.links
    assert "line-contract" in Page(photographer.get(f"/w/{wedding.public_id}/ready")).ids


def test_a_season_without_weddings_is_calm(photographer):
    words = said(photographer.get("/due"))
    assert "Nothing is late, and nothing is due within two weeks." in words
    assert "No wedding is near enough" in words


def test_the_first_time_mode_says_why_here_too(photographer):
    book("Ana", timezone.localdate() + timedelta(days=20))
    assert "nobody has to remember it" not in said(photographer.get("/due"))
    Studio.objects.update(explains=True)
    assert "nobody has to remember it" in said(photographer.get("/due"))


def test_two_weddings_too_near_in_time_and_in_distance_are_told():
    day = TODAY + timedelta(days=30)
    book("Ana", day, spot=EDINBURGH)
    book("Bo", day + timedelta(days=1), begins=time(14), spot=CARDIFF)
    (words,) = told()
    assert words == (
        "From Ana on 1 July 2027 to Bo on 2 July 2027 there are 16 hours: too few for 11 hours of "
        "rest and about 11.5 on the way (497 km in a straight line)."
    )


def test_where_a_day_ends_and_the_next_begins_is_what_counts():
    """Ana's party and Bo's morning are in one town; what lies elsewhere is over or comes later."""
    day = TODAY + timedelta(days=30)
    ana, bo = (
        book(n, day + timedelta(days=i), spot=EDINBURGH) for i, n in enumerate(("Ana", "Bo"))
    )
    for wedding, at in ((ana, time(11)), (bo, time(18))):
        far = Place.objects.create(wedding=wedding, name="Far", key="far")
        PlaceSpot.objects.create(place=far, latitude=CARDIFF[0], longitude=CARDIFF[1])
        other = wedding.places.get(key="m")
        day_row = wedding.days.get()
        Moment.objects.create(
            wedding=wedding, day=day_row, kind="ceremony", at=at, place=far, key="a"
        )
        near = time(20) if wedding == ana else time(12)
        Moment.objects.create(
            wedding=wedding, day=day_row, kind="party", at=near, place=other, key="b"
        )
    assert told() == []


def test_a_night_too_short_to_charge_is_told():
    wedding = book("Ana", TODAY + timedelta(days=30), ends=time(2))
    second = Day.objects.create(wedding=wedding, date=TODAY + timedelta(days=31), key="d2")
    Hours.objects.create(day=second, starts=time(5), ends=time(20))
    (words,) = told()
    assert "In the night before 2 July 2027 there are 3 hours off the road" in words


def test_a_policy_that_lapses_in_mid_season_is_told_once():
    insure()
    for number, name in enumerate(("Ana", "Bo", "Cy")):
        book(name, TODAY + timedelta(days=15 + 7 * number))
    assert told() == [
        "Public liability: Larkmoor ends on 20 June 2027. Within half a year 2 weddings are not "
        "covered; the first is Bo, 23 June 2027."
    ]


def test_a_policy_that_a_booking_takes_over_the_border_is_told():
    policy = insure()
    policy.countries = ["GB"]
    policy.save()
    book("Ana", TODAY + timedelta(days=7), zone="Europe/Oslo")
    assert told() == [
        "Public liability: Larkmoor does not hold in this country: Norway. Within half a year "
        "one wedding is not covered: Ana, 8 June 2027."
    ]


def test_a_wedding_further_off_than_half_a_year_is_for_the_next_policy():
    insure()
    book("Ana", TODAY + timedelta(days=183))
    assert "Ana, 1 December 2027" in told()[0]
    Day.objects.update(date=TODAY + timedelta(days=184))
    assert told() == []


def test_insurance_that_was_settled_by_hand_is_not_told():
    insure()
    wedding = book("Ana", TODAY + timedelta(days=60))
    ReadyTick.objects.create(wedding=wedding, key="insurance-liability", state="done", at=NOW)
    assert told() == []


def test_no_insurance_at_all_is_one_line():
    Studio.objects.update(insurance=None)
    book("Ana", TODAY + timedelta(days=60))
    assert told() == ["No insurance is noted yet."]


def test_yesterdays_party_that_ends_today_still_counts(studio):
    book("Ana", TODAY - timedelta(days=1), ends=time(4))
    book("Bo", TODAY, begins=time(9))
    assert len(season_clashes(TODAY, studio)) == 1
    assert season_clashes(TODAY + timedelta(days=1), studio) == []


LENS = {"kind": "lens", "title": "70-200", "owner": "hired"}


def test_one_hired_lens_in_two_bags_of_one_day_is_told():
    lens = KitItem.objects.create(**LENS)
    for name in ("Ana", "Bo"):
        wedding = book(name, TODAY + timedelta(days=30))
        BagLine.objects.create(wedding=wedding, item=lens, count=1)
    assert told()[1:] == ["“70-200” goes to Ana and to Bo on 1 July 2027, and there is only one."]


def test_one_hired_lens_that_two_weddings_of_one_day_would_take_is_told_before_any_bag_is_kept():
    KitItem.objects.create(**LENS)
    for name, days in (("Ana", 30), ("Bo", 30), ("Cy", 33)):
        book(name, TODAY + timedelta(days=days))
    assert told()[1:] == ["“70-200” goes to Ana and to Bo on 1 July 2027, and there is only one."]


def test_a_hired_lens_that_has_to_be_back_before_its_wedding_is_told():
    lens = KitItem.objects.create(**LENS, back_by=TODAY + timedelta(days=29))
    wedding = book("Ana", TODAY + timedelta(days=30))
    line = BagLine.objects.create(wedding=wedding, item=lens, count=1)
    assert told()[0].startswith("“70-200” has to be back by 30 June 2027, and goes to Ana")
    line.count = 0
    line.save()
    assert told() == []


def test_the_batteries_of_the_bag_say_how_long_a_night_must_be():
    battery = KitItem.objects.create(kind="battery", title="Spare", power="P1", count=11)
    charger = KitItem.objects.create(kind="charger", title="Single", power="p1", count=1)
    day = TODAY + timedelta(days=30)
    for name, on in (("Ana", day), ("Bo", day + timedelta(days=1))):
        wedding = book(name, on, begins=time(12))
        for item in (battery, charger):
            BagLine.objects.create(wedding=wedding, item=item, count=item.count)
    (words,) = told()
    assert "there are 14 hours off the road; your batteries take about 27.5 to charge" in words


def test_the_season_itself_shows_the_clashes(photographer):
    day = timezone.localdate() + timedelta(days=30)
    book("Ana", day), book("Bo", day)
    assert "Ana and Bo are on the same day" in said(photographer.get("/"))
    assert "are on the same day" not in said(photographer.get("/?past"))
    assert "/due" in Page(photographer.get("/")).links


@pytest.mark.parametrize("page", ["/", "/due"])
def test_as_many_questions_for_two_weddings_as_for_hundreds(photographer, page):
    def asked():
        with CaptureQueriesContext(connection) as queries:
            assert photographer.get(page).status_code == 200
        return len(queries)

    first = timezone.localdate() - timedelta(days=2)
    insure()
    lens = KitItem.objects.create(**LENS)

    def season(numbers):
        for number in numbers:
            wedding = book(f"W{number}", first + timedelta(days=number), spot=EDINBURGH)
            ReadyTick.objects.create(wedding=wedding, key="contract", state="done", at=NOW)
            BagLine.objects.create(wedding=wedding, item=lens, count=1)

    season(range(5))
    two = asked()
    season(range(5, MOST_WEDDINGS + 30))
    assert asked() == two < 45


def test_more_weddings_than_are_looked_at_are_said_to_be_elsewhere(photographer):
    day = timezone.localdate() + timedelta(days=30)
    for number in range(MOST_WEDDINGS + 1):
        book(f"W{number}", day)
    words = said(photographer.get("/due"))
    assert "These are the soonest; the others are in the season." in words
