"""Published networks and laws, each with its source in tests/evidence/timeline.json."""

from fractions import Fraction
from itertools import product
from random import Random

import pytest

from planning.compute.as_network import GROUPS_MOST
from planning.compute.network import Law, draws
from planning.compute.network.course import build_course
from planning.compute.network.laws import drive_law
from planning.compute.network.network import Network
from planning.compute.network.placement import chance_over
from planning.compute.network.simulate import simulate
from tests.compute.network.days import PUBLISHED, block, day


def critical_path(durations, before):
    """Earliest and latest start of each activity, and the length, by our network."""
    network = Network("begin")
    for key, minutes in durations.items():
        network.say("begin", (key, 0), 0)
        network.say((key, 0), (key, 1), minutes)
        network.say((key, 1), "finish", 0)
        for other in before.get(key, ()):
            network.say((other, 1), (key, 0), 0)
    length = network.earliest()["finish"]
    network.say("begin", "finish", length, length)
    early, late = network.earliest(), network.latest()
    return {key: (early[key, 0], late[key, 1] - durations[key]) for key in durations}, length


def rows(durations, before):
    found, length = critical_path(durations, before)
    return {
        key: [early, early + durations[key], late, late + durations[key], late - early]
        for key, (early, late) in found.items()
    }, length


def test_the_eight_activities_of_the_textbook():
    entry = PUBLISHED["cpm-milwaukee"]
    table, length = rows(entry["inputs"]["duration"], entry["inputs"]["pred"])
    assert table == entry["outputs"]["ES_EF_LS_LF_slack"]
    assert length == entry["outputs"]["length"]
    assert [key for key, row in table.items() if row[4] == 0] == entry["outputs"]["critical"]


def test_the_twelve_activities_of_the_exercise():
    entry = PUBLISHED["cpm-12-activities"]
    table, length = rows(entry["inputs"]["duration"], entry["inputs"]["pred"])
    assert {key: row[4] for key, row in table.items()} == entry["outputs"]["float"]
    assert length == entry["outputs"]["length"]


def test_the_arrow_network_of_the_textbook():
    entry = PUBLISHED["cpm-taylor-1"]
    arcs = entry["inputs"]["arcs"]
    durations = {i: minutes for i, (_, _, minutes) in enumerate(arcs)}
    before = {i: [j for j, arc in enumerate(arcs) if arc[1] == arcs[i][0]] for i in durations}
    table, length = rows(durations, before)
    assert [table[i] for i in durations] == entry["outputs"]["rows_ES_EF_LS_LF_slack"]
    assert length == entry["outputs"]["length"]


def expected(three):
    least, likely, most = three
    return Fraction(least + 4 * likely + most, 6)


def test_fourteen_activities_with_uncertain_minutes():
    entry = PUBLISHED["pert-14-activities"]
    durations = {key: expected(three) for key, three in entry["inputs"]["estimates"].items()}
    assert {key: float(te) for key, te in durations.items()} == pytest.approx(
        entry["outputs"]["te"], abs=0.005
    )
    table, length = rows(durations, entry["inputs"]["pred"])
    for key, row in entry["outputs"]["first_rows"].items():
        assert [float(one) for one in table[key]] == pytest.approx(row, abs=0.011)
    assert float(length) == pytest.approx(50.833, abs=0.001)


@pytest.mark.parametrize("name", ["pert-taylor", "pert-milwaukee"])
def test_the_normal_tail_gives_the_published_chance(name):
    entry = PUBLISHED[name]
    estimates = [entry["inputs"]["estimates"][key] for key in entry["inputs"]["critical"]]
    mean = float(sum(expected(three) for three in estimates))
    variance = sum((most - least) ** 2 / 36 for least, _, most in estimates)
    assert mean == entry["outputs"]["mean"]
    assert variance == pytest.approx(entry["outputs"]["variance"], abs=0.005)
    found = 1 - chance_over(entry["inputs"]["deadline"], mean, variance)
    # The sources read z from a table of two decimals.
    assert found == pytest.approx(entry["outputs"]["probability"], abs=0.0015)


def test_the_three_paths_have_the_chance_of_the_triangular_law(monkeypatch):
    """0.861 in 400,000 independent triangular days (the note of the entry)."""
    monkeypatch.setattr(draws, "CORRELATION", 0)
    for cache in (draws.shares, draws.minutes):
        cache.cache_clear()
    entry = PUBLISHED["pert-three-paths"]
    blocks = []
    for path in entry["inputs"]["paths"]:
        for i, key in enumerate(path):
            three = tuple(entry["inputs"]["estimates"][key])
            after = (path[i - 1],) if i else ()
            blocks.append(block(key, three, photographer=False, after=after))
    last = tuple(path[-1] for path in entry["inputs"]["paths"])
    end = block("end", 0, photographer=False, after=last)
    course = build_course(day(*blocks, end))
    days = simulate(course, {b.key: 0 for b in course.blocks})
    in_time = [ready <= entry["inputs"]["deadline"] for ready in days.ready["end"]]
    for cache in (draws.shares, draws.minutes):
        cache.cache_clear()
    assert in_time.count(True) / len(in_time) == pytest.approx(0.861, abs=0.024)  # 3 errors


def test_the_triangular_law_has_the_moments_of_the_textbook():
    entry = PUBLISHED["triangular-moments"]
    law = Law(*(entry["inputs"][name] for name in "amb"))
    assert law.mean == pytest.approx(entry["outputs"]["mean"], abs=0.001)
    assert law.variance == pytest.approx(entry["outputs"]["variance"], abs=0.001)
    drawn = draws.minutes("moments", law)
    mean = sum(drawn) / len(drawn)
    assert mean == pytest.approx(entry["outputs"]["mean"], abs=0.001)
    spread = sum((one - mean) ** 2 for one in drawn) / len(drawn)
    assert spread == pytest.approx(entry["outputs"]["variance"], abs=0.02)


def test_speeches_last_as_the_survey_says():
    entry = PUBLISHED["speeches-survey"]["outputs"]
    drawn = draws.minutes("speeches", Law(10, 30, 60))
    under = len([one for one in drawn if one < 45]) / len(drawn)
    assert under == pytest.approx(entry["share_under_45"], abs=0.03)
    over = entry["share_45_60"] + entry["share_over_60"]
    assert 1 - under == pytest.approx(over, abs=0.03)
    assert max(drawn) <= 60


def test_a_drive_is_as_uncertain_as_published_indices():
    """95 in 100 drives: more than the rule of a third, close to a buffer index of 0.40, below a
    planning time index of 1.8."""
    entry, index = PUBLISHED["fhwa-buffer-index"], PUBLISHED["planning-time-index"]
    longest = drive_law(entry["inputs"]["average_min"]).quantile(0.95)
    assert longest == pytest.approx(entry["outputs"]["total_min"], abs=0.6)
    assert 20 * 4 / 3 < longest < index["outputs"]["planned_min"]


def test_a_network_holds_exactly_where_no_cycle_is_negative():
    """The theorem as published, against every assignment of small whole times."""
    assert "no negative cycle" in PUBLISHED["stn-theorem-negative-cycle"]["inputs"]["statement"]
    chance, held = Random(1991), 0  # noqa: S311 - the year of the paper, the same networks always
    for _ in range(200):
        said = [(*chance.sample("ABC", 2), chance.randint(-2, 2)) for _ in range(4)]
        network = Network("A")
        for a, b, least in said:
            network.say(a, b, least)
        times = (dict(zip("ABC", each, strict=True)) for each in product(range(9), repeat=3))
        holds = any(all(t[b] - t[a] >= least for a, b, least in said) for t in times)
        assert bool(network.negative_cycle()) == (not holds)
        held += holds
    assert 20 < held < 180


def test_the_most_that_groups_take_is_about_what_people_overran_their_own_estimates_by():
    entry = PUBLISHED["planning-fallacy"]
    told = entry["outputs"]
    overran = told["actual_days"] / told["predicted_days"]
    assert overran == pytest.approx(1 + told["overrun"], abs=entry["tolerance"])
    assert told["actual_days"] > told["worst_case"]
    assert pytest.approx(overran, abs=0.05) == GROUPS_MOST
