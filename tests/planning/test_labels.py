from planning.labels import Box, Ground, box_of

EDGE = Box(0, 0, 200, 100)


def test_a_label_stands_at_its_first_free_spot():
    ground = Ground(EDGE)
    first = ground.place("noon", [(50, 50)], 12)
    second = ground.place("noon", [(52, 50), (50, 70)], 12)
    assert (first.x, second.x, second.y > first.y) == (50, 50, True)


def test_a_label_that_would_run_over_the_edge_or_has_no_spot_is_left_out():
    ground = Ground(EDGE)
    assert ground.place("a long label", [(190, 50), (5, 50), (100, 2), (100, 98)], 12) is None
    ground.keep_free([(100, 50)], around=300)
    assert ground.place("x", [(100, 50)], 12) is None


def test_a_line_over_a_label_is_seen():
    ground = Ground(EDGE)
    ground.place("noon", [(50, 50)], 12)
    assert ground.crosses([(20, 50), (50, 50)])
    assert not ground.crosses([(20, 80), (50, 80)])


def test_a_longer_or_larger_text_takes_more_ground():
    assert box_of("noon", 0, 0, 12).right > box_of("no", 0, 0, 12).right
    assert box_of("noon", 0, 0, 20).right > box_of("noon", 0, 0, 12).right
