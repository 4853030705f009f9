import pytest

from planning.compute.light.compass import SHADOWS, WINDS, compass_word, shadow_words


@pytest.mark.parametrize(
    ("bearing", "word"),
    # The sixteen winds of the compass rose stand 22.5 degrees apart, from north clockwise.
    [(0, "north"), (11.2, "north"), (11.3, "north-north-east"), (90, "east"), (135, "south-east"),
     (180, "south"), (247.5, "west-south-west"), (270, "west"), (348.8, "north"), (360, "north"),
     (-90, "west")],
)  # fmt: skip
def test_a_bearing_is_its_nearest_wind(bearing, word):
    assert compass_word(bearing) == word


def test_opposite_winds_are_opposite_words():
    swap = {"north": "south", "south": "north", "east": "west", "west": "east"}
    for i, word in enumerate(WINDS):
        assert "-".join(swap[part] for part in word.split("-")) == WINDS[(i + 8) % 16]


def test_a_shadow_is_said_by_its_length():
    assert shadow_words(0.5) == "about half their height"
    assert shadow_words(1.0) == "about their height"  # at 45 degrees: 1 / tan 45
    assert shadow_words(1.732) == "half as long again as their height"  # at 30
    assert shadow_words(9.51) == "six to ten times their height"  # at 6
    assert shadow_words(400) == "over ten times their height"
    assert [most for most, _ in SHADOWS] == sorted(most for most, _ in SHADOWS)
