"""So many are at heavy work or wait for it, and so many of them for one couple."""

from contextlib import ExitStack

import pytest

from studio.turns import BusyError, Turns


def is_busy(turns, whose):
    try:
        with turns.one(whose):
            return False
    except BusyError:
        return True


def test_one_who_asks_again_and_again_leaves_room_for_others():
    turns = Turns(3, each=2)
    with turns.one("a"), turns.one("a"):
        assert is_busy(turns, "a")
        assert not is_busy(turns, "b")


def test_so_many_and_nobody_more():
    turns = Turns(3, each=2)
    with ExitStack() as inside:
        for whose in "abc":
            inside.enter_context(turns.one(whose))
        assert is_busy(turns, "d")
    assert not is_busy(turns, "d")


def test_whoever_fails_makes_room_too():
    turns = Turns(1, each=1)
    with pytest.raises(ZeroDivisionError), turns.one("a"):
        raise ZeroDivisionError
    assert not is_busy(turns, "a")
