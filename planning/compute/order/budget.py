"""How much work a search may do: counted first, so that the cut falls at the same place."""

from __future__ import annotations

from time import perf_counter

# One unit is about a microsecond of a slow laptop; the clock only stops slower machines.
UNITS_A_SECOND = 700_000
CLOCK_SHARE = 0.9


class Budget:
    """Units of work for `seconds`; `over` once the units or the clock run out."""

    def __init__(self, seconds: float, started: float | None = None) -> None:
        self.started = perf_counter() if started is None else started
        self.units = seconds * UNITS_A_SECOND
        self.ends = self.started + seconds * CLOCK_SHARE
        self.cut = ""

    def spend(self, units: float) -> None:
        self.units -= units

    @property
    def over(self) -> bool:
        if not self.cut and self.units <= 0:
            self.cut = "work"
        elif not self.cut and perf_counter() > self.ends:
            self.cut = "clock"
        return bool(self.cut)

    def share(self, part: float) -> Share:
        """A part of what is left, spent from the whole."""
        return Share(self, part)


class Share(Budget):
    def __init__(self, whole: Budget, part: float) -> None:
        self.whole = whole
        self.started = whole.started
        self.units = max(0.0, whole.units) * part
        # Only the whole is timed, so that on no machine a part ends earlier than its work.
        self.ends = whole.ends
        self.cut = whole.cut

    def spend(self, units: float) -> None:
        self.units -= units
        self.whole.spend(units)
