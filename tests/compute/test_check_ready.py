"""Every check of a ready list is silent when all is well, and speaks when something is not."""

from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from planning.compute.check_ready import READY_CHECKS, check_ready
from planning.compute.ready import ready_list

from .readies import POLICIES, ready_brief, ticks

JUNE, NEXT, CHANGE = date(2027, 6, 12), date(2027, 6, 13), date(2027, 10, 31)
SPRING = datetime(2027, 4, 1, tzinfo=UTC)
AFTER = datetime(2027, 6, 20, tzinfo=UTC)
LAPSED = replace(POLICIES[0], ends=date(2027, 5, 3))
AT_HOME = replace(POLICIES[0], countries=frozenset({"GB"}))
OSLO = {"zone": "Europe/Oslo", "countries": frozenset({"NO"})}

SPEAKING = {
    "copies_still_open": (ready_brief(JUNE), AFTER, "2027-06-12 have no two copies"),
    "cards_without_copies": (
        ready_brief(JUNE, cards_hold=("Ana & Bo",), ticks=ticks("cards.d1")),
        SPRING,
        "two copies of Ana & Bo are not",
    ),
    "insurance_gap": (ready_brief(JUNE, policies=(LAPSED, *POLICIES[1:])), SPRING, "2027-05-03"),
    "same_date_twice": (ready_brief(JUNE, JUNE), SPRING, "same date, 2027-06-12"),
    "hours_unknown": (ready_brief(JUNE, hours="10:00-"), SPRING, "hours are not settled"),
    "clocks_change": (ready_brief(CHANGE), SPRING, "around 2027-10-31"),
    "other_zone": (ready_brief(JUNE, **OSLO), SPRING, "1 h ahead of yours"),
}


def sentences(brief, now):
    return [(f.code, f.message % f.values) for f in check_ready(ready_list(brief, now))]


def test_every_check_has_a_brief_that_makes_it_speak():
    assert [check.__name__ for check in READY_CHECKS] == list(SPEAKING)


@pytest.mark.parametrize("code", SPEAKING)
def test_a_check_speaks_when_it_should(code):
    brief, now, words = SPEAKING[code]
    said = [text for found, text in sentences(brief, now) if found == code]
    assert len(said) == 1
    assert words in said[0]


def test_all_are_silent_when_all_is_well():
    assert sentences(ready_brief(JUNE, NEXT, hours="10:00-20:00"), SPRING) == []


def test_a_policy_that_stops_at_the_border_names_the_country():
    brief = ready_brief(JUNE, policies=(AT_HOME, *POLICIES[1:]), **OSLO, home_zone="")
    ((_code, text),) = sentences(brief, SPRING)
    assert text == "Equipment: Harbour Mutual does not hold in this country: NO."


def test_a_policy_of_a_wedding_without_a_date_yet_has_no_gap():
    assert sentences(ready_brief(), SPRING) == []


def test_a_policy_that_is_not_needed_here_is_not_spoken_of():
    brief = ready_brief(
        JUNE,
        policies=(LAPSED, *POLICIES[1:]),
        ticks=ticks("insurance-equipment", state="not_needed"),
    )
    assert sentences(brief, SPRING) == []


@pytest.mark.parametrize(
    ("zone", "words"), [("America/St_Johns", "3.5 h behind"), ("Asia/Kolkata", "4.5 h ahead")]
)
def test_half_hours_of_another_clock_are_told(zone, words):
    """India is 5:30 ahead of UTC, Newfoundland 2:30 behind in summer, Britain 1:00 ahead."""
    ((_code, text),) = sentences(ready_brief(JUNE, zone=zone), SPRING)
    assert words in text


def test_an_end_after_the_clocks_changed_counts_too():
    """A party on the evening of 27 March 2027 goes on after the change of the 28th."""
    brief = ready_brief(date(2027, 3, 27), hours="12:00-02:30")
    assert [code for code, _text in sentences(brief, datetime(2027, 3, 1, tzinfo=UTC))] == [
        "clocks_change"
    ]
    early = ready_brief(date(2027, 3, 27), hours="12:00-23:00")
    assert sentences(early, datetime(2027, 3, 1, tzinfo=UTC)) == []
