"""Every check is silent when all is well, and speaks when something is not."""

from dataclasses import replace
from datetime import date

import pytest

from planning.compute.bag.items import Item
from planning.compute.day import plan_wedding
from planning.compute.findings import CHECKS, find_all
from planning.compute.settled import SECOND, Settled
from planning.compute.values import (
    Allowed,
    Care,
    Contact,
    Leg,
    OpenQuestion,
    Partner,
    Place,
    Spot,
    TakenOut,
    UnreadPhone,
)

from .briefs import ALL_LEGS, APART, BARN, EVERY_USE, JUNE, at, group, make_brief, make_day, moment

CEREMONY = moment("ceremony", "14:00")
AUTUMN = date(2027, 9, 11)  # the sun is neither high nor gone
WELL = make_brief(
    make_day(CEREMONY, moment("meal", "17:00"), hours="10:00-23:00", on=AUTUMN),
    groups=(group("All", "Ana Obi", "Bo Nowak"),),
    cares=(Care("apart", "Ana Obi", "Cy Keane"), Care("no_photo", "Di Adeyemi")),
    allowed=(Allowed("online", "ask"),),
)
EARLY = make_day(moment("ceremony", "10:00"), on=date(2027, 9, 12), key="d2")
MOVED = Settled("meal-1700", at=at("16:45"), said=at("16:30"))
DARK = Place("dark", "Fjord", EVERY_USE, spot=Spot(69.65, 18.96), wet_plan="Indoors")
EVERYBODY = (replace(group("All", extra=40), everyone=True),)
LONG = tuple(group(f"Table {i}", extra=20) for i in range(9))


def on(*moments, hours="10:00-23:00", day=AUTUMN, **fields):
    return replace(WELL, days=(make_day(*moments, hours=hours, on=day),), **fields)


CAKE = moment("cake", "14:30")

BODY = Item("body", "body", "First body", mount="M", card_form="SD", power="B")
CARD = Item("card", "card", "Card", card_form="SD", gb=64)
ZOOM = Item("zoom", "lens", "Zoom", mount="M", wide=24, long=70)

# For each check one brief that makes it speak, and what it must mention.
SPEAKING = {
    "bag_lacks": (replace(WELL, kit=(BODY,)), "The bag lacks a working camera"),
    "bag_fails": (
        replace(WELL, kit=(BODY, CARD, Item("cell", "battery", "Battery", power="B"), ZOOM)),
        "If “First body” fails, the bag lacks a working camera, and all that hangs on one. Borrow",
    ),
    "bag_unknown": (
        replace(WELL, kit=(BODY,)),
        "How much a raw file of “First body” takes is not entered",
    ),
    "copying_is_long": (
        replace(WELL, kit=(replace(BODY, raw_mb=100), Item("r", "reader", "Reader", speed=10))),
        "minutes by “Reader”, and “Second copy of the cards, pack” has 20",
    ),
    "nothing_holds_the_day": (on(moment("ceremony"), hours=""), "2027-09-11"),
    "changed_since_settled": (
        replace(WELL, days=(replace(WELL.days[0], settled=(MOVED,)),)),
        "now say Meal at 17:00. You settled it when they said 16:30",
    ),
    "couple_at_once": (
        replace(
            WELL,
            days=(
                replace(
                    make_day(CEREMONY, CAKE, hours="10:00-23:00", on=AUTUMN),
                    settled=(Settled(CAKE.key, who=SECOND),),
                ),
            ),
        ),
        "“Congratulations” with you, “Cake” with the second photographer",
    ),
    "no_time_left": (
        on(CEREMONY, moment("meal", "15:40"), groups=(group("All", extra=90),)),
        "No time is left for “Drinks”",
    ),
    "second_does_not_fit": (
        replace(
            WELL,
            days=(
                replace(
                    make_day(CEREMONY, CAKE, hours="10:00-23:00", on=AUTUMN),
                    settled=(
                        Settled(CEREMONY.key, who=SECOND, minutes=(60, 60, 60)),
                        Settled(CAKE.key, who=SECOND),
                    ),
                ),
            ),
        ),
        "30 minutes short of “Cake” at 14:30",
    ),
    "risky": (on(CEREMONY, moment("meal", "16:00")), "Meal at 16:00 is kept on about"),
    "long_day": (
        on(moment("getting_ready", "07:30"), CEREMONY, hours="07:30-23:30"),
        "16 hours from setting out",
    ),
    "no_break": (
        on(moment("ceremony", "15:00"), moment("meal", "22:00"), hours="14:00-23:30"),
        "from 14:",
    ),
    "tired_drive": (
        replace(WELL, legs=(Leg(None, "barn", 100), Leg("barn", None, 100))),
        "minutes: plan a stop",
    ),
    "short_night": (
        replace(WELL, days=(*WELL.days, EARLY)),
        "hours of night, less than 11",
    ),
    "ceremony_time": (on(moment("ceremony", title="Tea ceremony")), "Tea ceremony"),
    "ceremony_place": (on(CEREMONY, places=(APART[0], APART[2])), "ceremony"),
    "outside_its_day": (on(CEREMONY, moment("dance", "23:15", title="Reel")), "Reel at 23:15"),
    "beyond_booked_hours": (on(CEREMONY, moment("dance", "22:58")), "6 minutes after"),
    "day_of_moment": (replace(WELL, loose_moments=(moment("cake", title="Cake"),)), "Cake"),
    "clock_change": (
        on(CEREMONY, moment("dance", "01:30"), hours="10:00-03:00", day=date(2027, 10, 30)),
        "01:30",
    ),
    "does_not_fit": (on(CEREMONY, moment("meal", "14:50")), "53 minutes short"),
    "groups_longer_than_gap": (on(CEREMONY, moment("meal", "15:00"), groups=LONG), "46 minutes"),
    "apart_in_one_frame": (
        replace(WELL, groups=(group("Cousins", "ANA OBI", "Cy  Keane"),)),
        "“Cousins” has both",
    ),
    "apart_with_everybody": (replace(WELL, groups=EVERYBODY), "“All” has everybody in it, Ana Obi"),
    "shy_with_everybody": (replace(WELL, groups=EVERYBODY), "and Di Adeyemi does not want"),
    "not_to_be_photographed": (replace(WELL, groups=(group("Six", "di adeyemi"),)), "di adeyemi"),
    "way_to_reach": (replace(WELL, partners=(Partner("Žofie", "Žofie"),)), "phone"),
    "helper_for_groups": (replace(WELL, helpers=()), "helper"),
    "wet_plan": (replace(WELL, places=(replace(BARN, wet_plan=""),)), "Orchard Barn"),
    "place_on_map": (replace(WELL, places=(replace(BARN, spot=None),)), "Orchard Barn"),
    "own_question": (
        replace(WELL, open_questions=(OpenQuestion("Any animals?", "more"),)),
        "not answered: Any animals?",
    ),
    "online_sharing": (replace(WELL, allowed=()), "show none"),
    "children_shown": (
        replace(WELL, cares=(Care("child", "Zosia Brown"),)),
        "nobody has said so for children (Zosia Brown)",
    ),
    "taken_out": (
        replace(WELL, taken_out=(TakenOut("day", date(2027, 9, 12)),)),
        "2027-09-12 is no longer a day of the wedding",
    ),
    "unread_phone": (
        replace(WELL, unread_phones=(UnreadPhone("Ike", "ring the bar", "people"),)),
        "Ike: “ring the bar” does not read",
    ),
    "where_it_starts": (on(CEREMONY, places=APART[1:], legs=ALL_LEGS), "Getting ready"),
    "unknown_drives": (replace(WELL, legs=()), "from home to Orchard Barn"),
    "not_in_the_timeline": (on(CEREMONY, moment("other", title="Doves")), "Doves"),
    "in_the_dark": (
        on(CEREMONY, day=date(2027, 12, 18), places=(DARK,), legs=(Leg(None, "dark", 0),)),
        "Portraits",
    ),
    "sunset_before_portraits": (
        on(moment("ceremony", "15:30"), day=date(2027, 12, 18)),
        "when the sun has set (15:5",
    ),
    "harsh_portraits": (on(CEREMONY, day=JUNE), "lower from 16:1"),
    "groups_face_the_sun": (
        replace(WELL, places=(replace(BARN, group_facing=215.0),)),
        "people face the sun",
    ),
    "ceremony_back_lit": (
        replace(WELL, places=(replace(BARN, ceremony_facing=20.0),)),
        "behind the two, 41° high",
    ),
    "golden_behind_skyline": (
        replace(WELL, places=(replace(BARN, skyline=((240.0, 20.0), (300.0, 20.0))),)),
        "before golden light begins",
    ),
    "no_night": (on(CEREMONY, day=JUNE, places=(replace(BARN, spot=Spot(60.4, -1.2)),)), "6°"),
    "many_groups": (replace(WELL, groups=LONG), "9 groups take about 41 minutes"),
    "twice_in_one_group": (replace(WELL, groups=(group("Six", "Tom", "TOM"),)), "“Tom”"),
    "two_spellings": (
        replace(WELL, groups=(group("Six", "Catherine Bell", "Katherine Bell"),)),
        "Katherine Bell",
    ),
    "spellings_counted_as_one": (
        replace(WELL, groups=(group("Six", "Văn Hùng", "Văn Hưng"),)),
        "“Văn Hùng” and “Văn Hưng”",
    ),
}


def said(check, brief):
    return [f.message % listed(f.values) for f in check(plan_wedding(brief))]


def listed(values):
    return {k: ", ".join(map(told, v)) if isinstance(v, tuple) else v for k, v in values.items()}


def told(value):
    """A sentence within one is filled first."""
    return value if isinstance(value, str) else value.message % value.values


def test_every_check_has_a_speaking_test_and_its_own_name_as_its_code():
    assert {check.__name__ for check in CHECKS} == set(SPEAKING)
    for check in CHECKS:
        brief, _ = SPEAKING[check.__name__]
        assert {f.code for f in check(plan_wedding(brief))} == {check.__name__}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_a_check_is_silent_when_all_is_well(check):
    assert said(check, WELL) == []


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_a_check_speaks_of_what_is_not_well(check):
    brief, mentioned = SPEAKING[check.__name__]
    assert mentioned in " ".join(said(check, brief))


def check_of(name):
    return next(check for check in CHECKS if check.__name__ == name)


@pytest.mark.parametrize("name", SPEAKING)
def test_a_finding_says_where_it_can_be_mended_and_how_much_it_weighs(name):
    brief, _ = SPEAKING[name]
    for finding in check_of(name)(plan_wedding(brief)):
        assert finding.weight in {"missing", "clash", "look"}
        assert finding.step


def test_findings_come_in_the_order_of_the_checks():
    plan = plan_wedding(on(moment("ceremony"), groups=LONG, helpers=()))
    order = [check.__name__ for check in CHECKS]
    places = [order.index(f.code) for f in find_all(plan)]
    assert places == sorted(places)
    assert len(places) > 2


def test_a_wedding_without_a_date_says_so():
    assert said(check_of("nothing_holds_the_day"), replace(WELL, days=())) == [
        "The wedding has no date yet."
    ]


def test_a_day_with_another_fixed_time_needs_no_ceremony():
    assert said(check_of("ceremony_time"), on(moment("party", "19:00"))) == []
    assert said(check_of("ceremony_time"), on()) != []


def test_a_ceremony_with_a_place_of_its_own_needs_no_list():
    brief = on(moment("ceremony", "14:00", place="hall"), places=(APART[0], APART[2]))
    assert said(check_of("ceremony_place"), brief) == []


def test_a_guess_where_the_day_starts_is_told_as_a_guess():
    church = replace(BARN, uses=frozenset({"ceremony"}))
    guess = on(CEREMONY, places=(church,))
    assert said(check_of("where_it_starts"), guess) == [
        "Nobody has said where Getting ready is. The plan takes Orchard Barn."
    ]
    told = on(CEREMONY, moment("getting_ready", "10:30", place="barn"), places=(church,))
    assert said(check_of("where_it_starts"), told) == []


def test_the_sentence_of_a_shortfall_adds_up_for_anyone_who_checks_it():
    brief = on(
        moment("ceremony", "13:30"),
        moment("meal", "15:30"),
        places=APART,
        legs=ALL_LEGS,
        groups=LONG,
    )
    (finding,) = check_of("does_not_fit")(plan_wedding(brief))
    v = finding.values
    assert (v["from"], v["until"], v["room"]) == ("13:30", "15:30", 120)
    # ceremony 25, congratulations 20, groups 9 x 4.5 + 5, portraits 25, details 15, call 10
    assert v["between"] == 25 + 20 + 46 + 25 + 15 + 10 == 141
    assert v["drives"] == 12  # nine minutes on the map and a third
    assert v["between"] + v["drives"] - v["room"] == v["short"] == 33


def test_the_sum_counts_the_hour_that_the_clocks_give_back():
    brief = on(
        CEREMONY,
        moment("other", "00:50", title="Fireworks"),
        moment("dance", "01:00"),
        hours="10:00-05:00",
        day=date(2027, 10, 30),
    )
    (finding,) = check_of("does_not_fit")(plan_wedding(brief))
    assert (finding.values["room"], finding.values["short"]) == (10, 5)
    later = replace(brief, days=(make_day(
        CEREMONY,
        moment("other", "00:50"),
        moment("dance", "02:00"),
        hours="10:00-05:00",
        on=date(2027, 10, 30),
    ),))  # fmt: skip
    assert said(check_of("does_not_fit"), later) == []


def test_the_half_of_a_pair_alone_is_no_clash():
    care = Care("apart", "Ana Obi", "ana obi")
    assert said(check_of("apart_in_one_frame"), replace(WELL, cares=(care,))) == []
    nobody = Care("apart", "Ana Obi", "")
    assert said(check_of("apart_in_one_frame"), replace(WELL, cares=(nobody,))) == []


def test_names_of_helpers_contacts_and_care_notes_are_compared_too():
    group_of = (group("Six", "Catherine Bell"),)
    for fields in (
        {"helpers": (Contact("Katherine Bell"),)},
        {"contacts": (Contact("Katherine Bell"),)},
        {"cares": (Care("apart", "Bo Nowak", "Katherine Bell"),)},
    ):
        assert said(check_of("two_spellings"), replace(WELL, groups=group_of, **fields))


@pytest.mark.parametrize(
    ("latitude", "longitude", "zone", "day", "at", "dark"),
    [
        (52.66, -2.86, "Europe/London", date(2027, 12, 18), "15:00", True),
        (52.66, -2.86, "Europe/London", date(2027, 12, 18), "13:00", False),
        (64.15, -21.94, "Atlantic/Reykjavik", date(2027, 6, 21), "21:00", False),
        (69.65, 18.96, "Europe/Oslo", date(2027, 6, 21), "22:00", False),
        (69.65, 18.96, "Europe/Oslo", date(2027, 12, 21), "11:00", True),
    ],
)
def test_dark_is_where_the_sun_is_down_whatever_the_latitude(
    latitude, longitude, zone, day, at, dark
):
    place = replace(DARK, spot=Spot(latitude, longitude))
    brief = on(moment("ceremony", at), hours="", day=day, places=(place,), zone=zone)
    assert bool(said(check_of("in_the_dark"), replace(brief, legs=()))) == dark
