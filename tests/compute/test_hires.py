"""What is hired goes to one wedding at a time, and only while it is there: against brute force."""

from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from planning.compute.hires import Hire, Use, hire_clashes

JUNE = date(2027, 6, 12)


def use(names, day=0, long=0, count=1):
    first = JUNE + timedelta(days=day)
    return Use(names, names, first, first + timedelta(days=long), count)


def said(*uses, count=1, had_from=None, back_by=None):
    hire = Hire("70-200", count, had_from, back_by, uses)
    return [c.finding.message % c.finding.values for c in hire_clashes([hire])]


def test_one_lens_at_two_weddings_of_one_day_is_told():
    assert said(use("Ana"), use("Bo")) == [
        "“70-200” goes to Ana and to Bo on 2027-06-12, and there is only one."
    ]


def test_two_alike_serve_two_weddings_and_not_three():
    assert said(use("Ana"), use("Bo"), count=2) == []
    (words,) = said(use("Ana"), use("Bo"), use("Cy"), count=2)
    assert "there are not so many" in words


def test_one_after_the_other_is_fine_and_a_day_in_common_is_not():
    assert said(use("Ana", long=1), use("Bo", day=2)) == []
    assert len(said(use("Ana", long=2), use("Bo", day=2))) == 1


def test_a_lens_that_has_to_be_back_before_is_told():
    assert said(use("Ana"), back_by=JUNE, had_from=JUNE) == []
    (words,) = said(use("Ana", long=1), back_by=JUNE)
    assert words.startswith("“70-200” has to be back by 2027-06-12, and goes to Ana on 2027-06-12")
    (words,) = said(use("Ana"), had_from=JUNE + timedelta(days=1))
    assert words.startswith("“70-200” is there from 2027-06-13 only")


USES = st.lists(st.tuples(st.integers(0, 8), st.integers(0, 3), st.integers(1, 3)), max_size=6)


@given(USES, st.integers(1, 4))
def test_it_speaks_just_where_a_count_of_every_day_finds_too_few(rows, count):
    uses = [use(f"w{i}", *row) for i, row in enumerate(rows)]
    days = [JUNE + timedelta(days=n) for n in range(-1, 14)]
    out = [sum(u.count for u in uses if u.first <= day <= u.last) for day in days]
    alone = any(u.count > count for u in uses)  # the bag itself gives no more than there are
    speaks = any(
        c.finding.code == "hired_twice"
        for c in hire_clashes([Hire("x", count, None, None, tuple(uses))])
    )
    if not alone:
        assert speaks == (max(out) > count)
