from planning.bench.papers import GOAL, as_line, measured


def test_a_row_tells_what_was_measured_beside_weasyprint_alone():
    rows = measured(rounds=1)
    for row in rows:
        assert row["pages"] >= 8
        assert row["goal"] == GOAL == 1.15
        assert row["times"] == row["median"] / row["weasyprint"]
        assert as_line(row).startswith("| day pack, ")
