"""Clock times of one day and its night as minutes since its 00:00, clock changes allowed for."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo


@dataclass(frozen=True, slots=True)
class Hours:
    """A date in a time zone. Minutes count what passes, so a night on which the clocks go back
    has an hour more between 25:00 and 28:00."""

    day: date
    zone: ZoneInfo

    def instant(self, days: int, hour: int, minute: int) -> datetime:
        """The instant (UTC) of a time on the clock; one that is skipped counts from before the
        change (02:30 becomes 03:30, say), one that comes twice means the first (PEP 495)."""
        on = self.day + timedelta(days=days)
        wall = datetime(on.year, on.month, on.day, hour, minute, tzinfo=self.zone)
        return wall.astimezone(UTC)

    def minute(self, clock: int) -> int:
        """Minutes since 00:00 for a time on the clock; `clock` is 60 x hours + minutes, and its
        hours may pass 24 (25:30 is half past one in the night after)."""
        days, rest = divmod(clock, 24 * 60)
        passed = self.instant(days, *divmod(rest, 60)) - self.instant(0, 0, 0)
        return round(passed / timedelta(minutes=1))

    def at(self, minute: float) -> datetime:
        """The local time, rounded to a whole minute first (14:59.6 is 15:00)."""
        passed = timedelta(minutes=round(minute))
        return (self.instant(0, 0, 0) + passed).astimezone(self.zone)

    def clock(self, minute: float) -> int:
        """What the clock shows: 60 x hours + minutes, past 24 hours in the night after."""
        local = self.at(minute)
        return 24 * 60 * (local.date() - self.day).days + 60 * local.hour + local.minute

    def shown(self, minute: float) -> str:
        """As HH:MM; the night after goes on with 24:00, the evening before is just its time."""
        clock = self.clock(minute)
        hour, rest = divmod(clock if clock >= 0 else clock % (24 * 60), 60)
        return f"{hour:02}:{rest:02}"

    def quirk(self, clock: int) -> str:
        """What is odd about a clock time on a night of change: "skipped", "twice" or nothing."""
        minute = self.minute(clock)
        if self.clock(minute) != clock:
            return "skipped"
        local = self.at(minute)
        return "twice" if local.utcoffset() != local.replace(fold=1).utcoffset() else ""
