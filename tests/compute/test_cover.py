"""Insurance against dates and countries: both ends of a policy count, and why it does not hold."""

from datetime import date

import pytest

from planning.compute.cover import KINDS, USUAL, cover
from planning.compute.ready_values import Policy

JUNE = date(2027, 6, 12)
GB, NO = frozenset({"GB"}), frozenset({"NO"})


def policy(starts, ends, countries=frozenset(), kind="liability", insurer="Harbour Mutual"):
    return Policy(kind, insurer, starts, ends, countries)


YEAR = policy(date(2027, 1, 1), date(2027, 12, 31))


def covered(*policies, dates=(JUNE,), countries=GB):
    return cover(policies, "liability", dates, countries)


def said(known):
    return known.message % known.values


def test_a_policy_that_runs_holds_and_says_until_when():
    known = covered(YEAR)
    assert known.done
    assert said(known) == "Harbour Mutual, until 2027-12-31."


@pytest.mark.parametrize("day", [date(2027, 1, 1), date(2027, 12, 31)])
def test_the_first_and_the_last_day_of_a_policy_are_insured(day):
    assert covered(YEAR, dates=(day,)).done


def test_without_a_policy_of_the_kind_nothing_holds():
    other = policy(YEAR.starts, YEAR.ends, kind="equipment")
    assert not covered(other).done
    assert "No policy" in said(covered(other))


def test_a_policy_that_lapses_names_the_day_it_leaves_open():
    known = covered(YEAR, dates=(JUNE, date(2028, 1, 1)))
    assert not known.done
    assert said(known) == "Harbour Mutual ends on 2027-12-31, before 2028-01-01."


def test_a_policy_that_begins_too_late_says_so():
    known = covered(policy(date(2027, 6, 13), date(2028, 6, 12)))
    assert said(known) == "Harbour Mutual begins on 2027-06-13, after 2027-06-12."


def test_one_policy_may_follow_another():
    after = policy(date(2028, 1, 1), date(2028, 12, 31), insurer="Quay & Sons")
    known = covered(YEAR, after, dates=(JUNE, date(2028, 1, 1)))
    assert said(known) == "Quay & Sons, until 2028-12-31."


def test_a_day_between_two_policies_is_open():
    after = policy(date(2028, 1, 2), date(2028, 12, 31))
    assert not covered(YEAR, after, dates=(date(2028, 1, 1),)).done


def test_a_policy_for_some_countries_stops_at_the_border():
    home = policy(YEAR.starts, YEAR.ends, GB)
    assert covered(home).done
    assert said(covered(home, countries=NO)) == (
        "Harbour Mutual does not hold in this country: NO."
    )
    abroad = policy(YEAR.starts, YEAR.ends, NO, insurer="Fjord")
    assert covered(home, abroad, countries=GB | NO).done
    assert covered(YEAR, countries=GB | NO).done


def test_where_no_country_is_known_the_dates_decide():
    assert covered(policy(YEAR.starts, YEAR.ends, GB), countries=frozenset()).done


def test_a_wedding_without_a_date_is_not_insured_yet():
    assert not covered(YEAR, dates=()).done


def test_the_usual_kinds_are_among_those_there_are():
    assert set(USUAL) <= set(KINDS)
