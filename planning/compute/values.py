"""What a plan rests on: the couple's words and the photographer's decisions as frozen values.

Lengths are whole or decimal minutes with `minutes` in the name, angles are degrees, times are
aware datetimes in the wedding's zone. Texts that people read are English message ids: pages
translate them at the edge, so that nothing in here needs Django.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time

from .bag.items import Item
from .settled import Settled
from .template import Template


def N_(text: str) -> str:  # noqa: N802 - gettext's own name for "translate this later"
    """Mark a message id for makemessages (--keyword=N_); returns it unchanged."""
    return text


@dataclass(frozen=True, slots=True)
class Spot:
    """A point on the ground (WGS 84): degrees, north and east positive."""

    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True)
class Contact:
    name: str
    role: str = ""
    side: str = ""
    phone: str = ""
    email: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Partner:
    """`called` is what the couple call each other; `word` is theirs too ("bride", or nothing)."""

    name: str
    called: str
    word: str = ""
    phone: str = ""
    email: str = ""


@dataclass(frozen=True, slots=True)
class Place:
    """`ceremony_facing` and `group_facing` are the bearings that the couple, and the people in the
    photographs, face; `skyline` is (bearing, height) of what hides the low sun. All in degrees,
    bearings clockwise from true north."""

    key: str
    name: str
    uses: frozenset[str] = frozenset()
    address: str = ""
    spot: Spot | None = None
    coordinator: Contact | None = None
    wet_plan: str = ""
    not_allowed: str = ""
    note: str = ""
    ceremony_facing: float | None = None
    group_facing: float | None = None
    skyline: tuple[tuple[float, float], ...] = ()


# Where the photographer's day begins and ends; a leg to or from it has None there.
HOME = Place("", N_("Home"))


@dataclass(frozen=True, slots=True)
class Moment:
    """A time the couple knows, or says it does not know yet (`at` is None)."""

    key: str
    kind: str
    title: str
    at: time | None = None
    unknown: bool = False
    place: str | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """A group photograph; `extra` counts people nobody names, or where `everyone` is in it (who is
    named anywhere in the list, too) all of them together."""

    key: str
    title: str
    people: tuple[str, ...] = ()
    extra: int = 0
    must: bool = True
    minutes: float | None = None  # the photographer's own figure
    left_out: bool = False
    everyone: bool = False


@dataclass(frozen=True, slots=True)
class GroupRule:
    """A rule of the order: `kind` is "before" (`one` before `other`), "first", "last" (`one`),
    or "free" (the person `one` has nothing after photograph `position`, counted from 1)."""

    kind: str
    one: str
    other: str = ""
    position: int = 0


@dataclass(frozen=True, slots=True)
class MustHave:
    """`says` is the kind in the reader's words."""

    text: str
    kind: str = ""
    says: str = ""
    key: str = ""


@dataclass(frozen=True, slots=True)
class Care:
    """What to care for about a person; `says` is the kind in the reader's words."""

    kind: str
    person: str
    other: str = ""
    note: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class Allowed:
    """What the couple say about one use of the pictures: `kind` is the use ("online", "children",
    "gallery", "supplier_use"), `answer` its key ("ask"; "" for none), `says` it in words."""

    kind: str
    answer: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class OwnAnswer:
    """An answer to one of the studio's own questions, under the words in which it was asked.

    `step` is the couple's page that it stands on; `is_past` where the question is not asked now.
    """

    asked: str
    words: str
    step: str = ""
    is_past: bool = False


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """One of the studio's own questions that counts as missing until it is answered."""

    text: str
    step: str


@dataclass(frozen=True, slots=True)
class UnreadPhone:
    """A phone number, as typed, that reads as none; `step` is the couple's page it stands on."""

    name: str
    phone: str
    step: str


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture for the contact sheet; `small` names its file in the store."""

    line: str
    small: str
    own: bool = False  # the photographer's, not the couple's


@dataclass(frozen=True, slots=True)
class Leg:
    """A drive; None is home. `map_minutes` is what the map says, without any margin."""

    origin: str | None
    destination: str | None
    map_minutes: int


@dataclass(frozen=True, slots=True)
class DayBrief:
    """One date of the wedding; `starts` and `ends` are the hours the photographer is booked for.

    `order` are keys of blocks as the photographer put them; `wanted` is the chance (0 to 1) that
    each fixed time should be kept with, `notice_minutes` what the wet-weather places need.
    """

    key: str
    date: date
    title: str = ""
    starts: time | None = None
    ends: time | None = None
    moments: tuple[Moment, ...] = ()
    settled: tuple[Settled, ...] = ()
    order: tuple[str, ...] = ()
    wanted: float = 0.9
    notice_minutes: int = 60


@dataclass(frozen=True, slots=True)
class TakenOut:
    """What is no longer in the answers though something is settled about it.

    `kind` is "day", "place", "group", "time", or "moved": a time that is on another day now. The
    `name` of a time is when it was, "" where nobody had said.
    """

    kind: str
    name: str | date


@dataclass(frozen=True, slots=True)
class Brief:
    """Everything a plan rests on, read once from the database.

    `meeting_at` and `visit_at` are local times of the wedding's zone.
    """

    wedding: str
    partners: tuple[Partner, ...]
    zone: str
    style: str = "one_place"
    own_blocks: tuple[Template, ...] = ()  # where the style is one of the studio's own
    days: tuple[DayBrief, ...] = ()
    loose_moments: tuple[Moment, ...] = ()
    places: tuple[Place, ...] = ()
    legs: tuple[Leg, ...] = ()
    contacts: tuple[Contact, ...] = ()
    helpers: tuple[Contact, ...] = ()
    suppliers: tuple[Contact, ...] = ()
    groups: tuple[Group, ...] = ()
    presence: str = "gathered"
    order_by: str = "largest"
    hand_order: tuple[str, ...] = ()
    nice_last: bool = False
    walk_price: float = 0.2
    group_rules: tuple[GroupRule, ...] = ()
    same_people: tuple[tuple[str, str], ...] = ()
    two_people: tuple[tuple[str, str], ...] = ()
    must_haves: tuple[MustHave, ...] = ()
    cares: tuple[Care, ...] = ()
    pictures: tuple[Picture, ...] = ()
    matters: str = ""
    anything_else: str = ""
    allowed: tuple[Allowed, ...] = ()
    sharing_note: str = ""
    own_answers: tuple[OwnAnswer, ...] = ()
    open_questions: tuple[OpenQuestion, ...] = ()
    not_asked: frozenset[str] = frozenset()  # as intake names it: "moment.ceremony"
    unread_phones: tuple[UnreadPhone, ...] = ()
    taken_out: tuple[TakenOut, ...] = ()
    saved_steps: frozenset[str] = frozenset()
    # Of the ready list: the studio’s own lines as (key, title), and the keys of what is not needed.
    evening_lines: tuple[tuple[str, str], ...] = ()
    spared: frozenset[str] = frozenset()
    home: str = ""
    group_base_minutes: float = 2.5
    group_person_minutes: float = 0.1
    group_walk_minutes: float = 0.0
    meeting_at: datetime | None = None
    visit_at: datetime | None = None
    visit_place: str | None = None
    visit_block: str = ""
    kit: tuple[Item, ...] = ()
    pace: float = 1.0  # the photographer's own counts of frames beside the usual rates
    shots: int = 0  # frames of one charge by the photographer's own counts; 0 before there are any
    cold: bool = False  # near 0 degrees C, where batteries hold less
    answers_due: date | None = None

    @property
    def names(self) -> str:
        return " & ".join(p.called for p in self.partners)

    def may(self, kind: str) -> str:
        """What the couple answered about one use of the pictures; "" where they have not."""
        return next((each.answer for each in self.allowed if each.kind == kind), "")
