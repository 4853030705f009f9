from random import Random

from django.template.defaultfilters import floatformat

from planning.compute.order.rounding import more_shown, shown


def test_a_difference_is_that_of_the_figures_beside_it():
    assert (shown(558.4), shown(553.5), more_shown(558.4, 553.5)) == (558, 554, 4)
    assert (shown(1.26, 1), shown(0.95, 1)) == (shown(1.3, 1), shown(1.0, 1))
    assert str(more_shown(0.3, 0.1, 1)) == "0.2"


def test_figures_are_rounded_as_the_pages_round_them():
    chance = Random(3)  # noqa: S311 - seeded on purpose
    for minutes in [0.5, 1.5, 2.5, 0.0, *(round(chance.uniform(0, 900), 2) for _ in range(500))]:
        assert str(shown(minutes)) == floatformat(minutes, 0)
        assert str(shown(minutes, 1)) == floatformat(minutes, 1)
