from datetime import datetime

import pytest

from planning.spoken import spoken


@pytest.mark.parametrize(
    ("clock", "words"),
    [
        ("21:32:00", "about half past nine in the evening"),
        ("04:19:10", "about twenty past four in the morning"),
        ("12:44:00", "about a quarter to one in the afternoon"),
        ("11:58:20", "about noon"),
        ("23:57:40", "about midnight"),
        ("00:02:29", "about midnight"),
        ("00:03:00", "about five past twelve at night"),
        ("09:00:00", "about nine o’clock in the morning"),
        ("21:58:00", "about ten o’clock at night"),
    ],
)
def test_a_clock_time_is_said_as_people_say_it(clock, words):
    assert spoken(datetime.fromisoformat(f"2027-06-12T{clock}")) == words


def test_every_minute_is_said_within_two_and_a_half_of_itself():
    said = {}
    for minute in range(1440):
        words = spoken(datetime(2027, 6, 12, minute // 60, minute % 60))
        said.setdefault(words, []).append(minute)
    assert len(said) == 288
    for words, minutes in said.items():
        spread = max(minutes) - min(minutes)
        assert spread <= 5 or words == "about midnight"
