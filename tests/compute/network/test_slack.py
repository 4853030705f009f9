from planning.compute.network.course import build_course
from planning.compute.network.slack import stretches
from tests.compute.network.days import block, church_day, day


def test_the_slack_of_a_stretch_is_what_nothing_fills():
    """14:00 to 16:00 is 120: ceremony 30, groups 40, drive 34 leave 16."""
    (stretch,) = stretches(build_course(church_day("16:00")))
    assert (stretch.origin, stretch.until, stretch.slack) == ("ceremony", "meal", 16)


def test_short_time_is_slack_below_nothing():
    (stretch,) = stretches(build_course(church_day()))
    assert stretch.slack == -14


def test_there_is_one_between_each_two_fixed_times_of_hers():
    others = block("x", fixed="15:00", photographer=False)
    posts = [block(key, fixed=f"{hour}:00") for key, hour in (("a", 14), ("b", 16), ("c", 18))]
    found = stretches(build_course(day(block("first", 10), *posts, others, block("last", 10))))
    assert [(s.origin, s.until, s.slack) for s in found] == [("a", "b", 90), ("b", "c", 90)]
