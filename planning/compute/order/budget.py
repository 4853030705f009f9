"""How much work a search may do: counted first, so that the cut falls at the same place."""

from __future__ import annotations

from time import perf_counter

# One unit is one to two microseconds of a slow laptop; the clock only stops slower machines.
UNITS_A_SECOND = 500_000
CLOCK_SHARE = 0.9


class Budget:
    """Units of work for `seconds`; `over` once the units or the clock run out, and `late` once
    the clock decided anything."""

    def __init__(self, seconds: float) -> None:
        self.started = perf_counter()
        self.units = seconds * UNITS_A_SECOND
        self.ends = self.started + seconds * CLOCK_SHARE
        self.late = False

    def spend(self, units: float) -> None:
        self.units -= units

    @property
    def over(self) -> bool:
        if self.units > 0 and not self.late and perf_counter() >= self.ends:
            self.be_late()
        return self.units <= 0 or self.late

    def keep_back(self, times: float) -> None:
        """Stop early enough for work that takes `times` as long as all that was done so far: what
        comes after the search, and what a search does between two looks at the clock."""
        self.ends -= times * (perf_counter() - self.started)

    def be_late(self) -> None:
        self.late = True

    @property
    def cut(self) -> str:
        """What decides where a search that proved nothing stopped."""
        return "clock" if self.late else "work"

    def share(self, part: float, clock: float = 1.0) -> Share:
        """A part of what is left, spent from the whole, and a part of the time left.

        Parts that a proof goes through share the whole clock: were they cut short by their own,
        a proven order could differ between machines where several are equally good.
        """
        return Share(self, part, clock)


class Share(Budget):
    def __init__(self, whole: Budget, part: float, clock: float) -> None:
        self.whole = whole
        self.started = whole.started
        self.units = max(0.0, whole.units) * part
        now = perf_counter()
        self.ends = now + max(0.0, whole.ends - now) * clock
        self.late = whole.late

    def spend(self, units: float) -> None:
        self.units -= units
        self.whole.spend(units)
