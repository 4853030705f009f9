from planning.bench.bags import SIZES, as_line, invented_bag, invented_need, measured
from planning.compute.bag.check import check_bag


def test_an_invented_bag_is_the_same_every_time_and_hard():
    assert invented_bag(120, 1) == invented_bag(120, 1) != invented_bag(120, 2)
    for count in SIZES:
        kit = invented_bag(count, 0)
        assert len(kit) == count
        holes = check_bag(kit, invented_need(kit)).holes
        assert any(hole.lost[0].kind == "card" for hole in holes)


def test_brute_force_finds_the_same_holes_in_a_row():
    row = measured(30, 2, 10)
    assert row["peer"]["same"]
    assert row["peer"]["tried"] == row["peer"]["of"]
    assert as_line(row).startswith("bag, 30 things")
    assert "same holes" in as_line(row)


def test_a_row_without_a_peer_tells_what_was_measured():
    row = measured(30, 1, 0)
    assert 0 < row["median"] <= row["worst"]
    assert "peer" not in row
