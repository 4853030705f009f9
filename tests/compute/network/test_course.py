from planning.compute.network.course import build_course, circle, in_order
from tests.compute.network.days import block, day


def keys(*blocks):
    return "".join(one.key for one in in_order(blocks))


def test_blocks_come_as_listed_where_nothing_else_is_said():
    assert keys(block("c"), block("a"), block("b")) == "cab"


def test_after_goes_before_the_list():
    assert keys(block("a", after=("c",)), block("b"), block("c")) == "bca"


def test_fixed_times_go_before_the_list_and_take_what_follows_them_along():
    late, tail, early = block("l", fixed="18:00"), block("t"), block("e", fixed="14:00")
    assert keys(late, tail, early) == "elt"


def test_times_of_other_people_move_no_block_of_hers():
    others = block("x", fixed="15:00", photographer=False)
    assert keys(block("a", fixed="14:00"), block("b", fixed="16:00"), others, block("c")) == "axbc"


def test_a_window_moves_a_block_only_where_it_must():
    wide, narrow = block("w", window=("10:00", "22:00")), block("n", window=("19:00", "20:00"))
    assert keys(block("a", fixed="14:00"), wide, block("b", fixed="16:00")) == "awb"
    assert keys(block("a", fixed="14:00"), narrow, block("b", fixed="16:00")) == "abn"


def test_what_a_fixed_block_waits_for_comes_first():
    early = block("e", fixed="12:00", after=("x",))
    assert keys(block("l", fixed="14:00"), block("x"), early) == "xel"


def test_a_circle_is_named_in_order():
    blocks = [block("a", after=("b",)), block("b", after=("c",)), block("c", after=("b",))]
    assert sorted(circle(blocks)) == ["b", "c"]
    assert circle([block("a", after=("a",))]) == ["a"]
    assert circle([block("a"), block("b", after=("a",))]) == []


def legs(*blocks, **fields):
    course = build_course(day(*blocks, legs=[("church", "venue", 25)], **fields))
    return course.gaps, [fault.code for fault in course.missing]


def test_a_drive_is_planned_with_a_third_more_in_both_directions():
    there, back = block("a", place="church"), block("b", place="venue")
    assert legs(there, back) == ((0, 34), [])
    assert legs(back, there) == ((0, 34), [])


def test_a_missing_drive_is_a_fault_of_its_own():
    assert legs(block("a", place="church"), block("b", place="hall")) == ((0, 0), ["missing_leg"])


def test_a_block_without_a_place_happens_where_people_are():
    blocks = block("a", place="church"), block("b"), block("c", place="venue")
    assert legs(*blocks) == ((0, 0, 34), [])


def test_a_block_of_travel_is_the_drive_itself():
    way = block("w", 34, kind="travel")
    assert legs(block("a", place="church"), way, block("c", place="hall")) == ((0, 0, 0), [])


def test_the_photographer_comes_from_home():
    assert legs(block("a", place="venue"), home="church") == ((34,), [])
    assert legs(block("a", place="venue"), home="venue") == ((0,), [])
    assert legs(block("a", place="venue"), home="hill")[1] == ["missing_leg"]


def test_blocks_of_others_need_no_drive_of_hers():
    others = block("b", place="hall", photographer=False)
    assert legs(block("a", place="church"), others, block("c", place="church"))[1] == []
