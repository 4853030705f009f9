"""What was agreed, as plain values, written as text and read again.

Only what the couple need to check: no phones, no mail addresses, nothing of what to care for.
Dates are ISO 8601, times on the clock of the wedding with their offset from UTC; texts that the
app itself writes are message ids, translated where they are shown.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable
from dataclasses import asdict, dataclass
from datetime import date, datetime

FORMAT = 1


@dataclass(frozen=True, slots=True)
class AgreedDay:
    """`holds` is "holds", "short", "unknown" (a drive is) or "" where nothing is planned yet;
    `decide_by` is when fair or rain is decided at the latest."""

    key: str
    date: str
    title: str
    starts: str
    ends: str
    holds: str
    decide_by: str


@dataclass(frozen=True, slots=True)
class AgreedPlace:
    key: str
    name: str
    address: str
    wet_plan: str
    not_allowed: str


@dataclass(frozen=True, slots=True)
class AgreedTime:
    """A block of the day. `sure` is the hundredths of `agreed_plan.STEPS` that its chance reaches,
    0 where it reaches none, None where its time is not one that is promised."""

    key: str
    day: str
    kind: str
    title: str
    at: str
    until: str
    fixed: bool
    place: str
    sure: int | None

    @property
    def start(self) -> datetime:
        return datetime.fromisoformat(self.at)

    @property
    def end(self) -> datetime:
        return datetime.fromisoformat(self.until)


@dataclass(frozen=True, slots=True)
class AgreedLight:
    """Sunset at one place and when the golden light before it begins; empty where it does not."""

    day: str
    place: str
    sunset: str
    golden: str


@dataclass(frozen=True, slots=True)
class AgreedGroup:
    """`minutes` are those of the photograph itself; `more` are people whom nobody names."""

    key: str
    title: str
    minutes: float
    must: bool
    people: tuple[str, ...]
    more: int
    everyone: bool


@dataclass(frozen=True, slots=True)
class AgreedWish:
    key: str
    text: str
    kind: str


@dataclass(frozen=True, slots=True)
class AgreedRoom:
    """Minutes of all groups with the walking in between, and what the day has for them before the
    fixed block `title`; `minutes` is None where nothing fixed follows them."""

    takes: int
    minutes: int | None
    title: str
    at: str


@dataclass(frozen=True, slots=True)
class AgreedNote:
    key: str
    about: str
    text: str


@dataclass(frozen=True, slots=True)
class Spoken:
    """What the studio says of every wedding; `own` where these are its own words and not ours."""

    text: str
    own: bool
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Agreed:
    names: tuple[str, ...]
    zone: str
    days: tuple[AgreedDay, ...]
    places: tuple[AgreedPlace, ...]
    times: tuple[AgreedTime, ...]
    lights: tuple[AgreedLight, ...]
    groups: tuple[AgreedGroup, ...]
    room: AgreedRoom
    wishes: tuple[AgreedWish, ...]
    spoken: Spoken
    notes: tuple[AgreedNote, ...]

    def of(self, day: AgreedDay) -> list[AgreedTime]:
        return [each for each in self.times if each.day == day.key]

    def lights_of(self, day: AgreedDay) -> list[AgreedLight]:
        return [each for each in self.lights if each.day == day.key]


def digest_of(text: str) -> str:
    """SHA-256 (FIPS 180-4) of the text in UTF-8, in hexadecimal."""
    return hashlib.sha256(text.encode()).hexdigest()


def to_text(agreed: Agreed) -> str:
    """JSON that is the same, letter by letter, for the same values."""
    values = {"format": FORMAT} | asdict(agreed)
    return json.dumps(values, ensure_ascii=False, sort_keys=True, separators=(",", ":"))


LISTS: dict[str, Callable[..., object]] = {
    "days": AgreedDay,
    "places": AgreedPlace,
    "times": AgreedTime,
    "lights": AgreedLight,
    "wishes": AgreedWish,
    "notes": AgreedNote,
}


def from_text(text: str) -> Agreed:
    """What `to_text` wrote; ValueError where it is anything else."""
    try:
        values = json.loads(text)
        if values.pop("format") != FORMAT:
            raise ValueError("another format")
        for name, kind in LISTS.items():
            values[name] = tuple(kind(**each) for each in values[name])
        groups = ({**each, "people": tuple(each["people"])} for each in values["groups"])
        values["groups"] = tuple(AgreedGroup(**each) for each in groups)
        values["names"] = tuple(values["names"])
        values["room"] = AgreedRoom(**values["room"])
        spoken = values["spoken"]
        values["spoken"] = Spoken(**{**spoken, "cautions": tuple(spoken["cautions"])})
        agreed = Agreed(**values)
        for day in agreed.days:
            date.fromisoformat(day.date)
        for each in agreed.times:
            datetime.fromisoformat(each.at), datetime.fromisoformat(each.until)
    except (AttributeError, KeyError, TypeError, ValueError) as error:
        raise ValueError("no summary of ours") from error
    return agreed
