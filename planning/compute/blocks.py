"""Templates of a day: which blocks follow each other, and how long each takes.

Minutes are (minimum, likely, maximum). They are `common practice, no source`, except these
likely ones, from councils' own pages and the like:
- a civil ceremony, 25 min: Torbay Council (about 25 min; Lincolnshire says 30);
- the couple there before it, 20 min: Hull (20 or 10), Nottinghamshire (15), Torbay (30 or 15);
- a church service, 45 min: Debrett's (around 45 min);
- speeches, 30 min of 10 to 60: a hotel group's survey (under 45 min at 86 % of weddings, 45 to 60
  at 12 %, longer at 2 %; 30 to 45 on average).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from .template import Minutes, Template
from .values import N_, Brief


@dataclass(frozen=True, slots=True)
class Style:
    title: str
    blocks: tuple[Template, ...]


NOTHING = (0, 0, 0)
ONE_PLACE = (
    Template("setup", N_("Set up, look at the light"), (10, 15, 25), "next", short=10),
    Template(
        "ready",
        N_("Getting ready"),
        (60, 90, 120),
        "getting_ready",
        "getting_ready",
        short=45,
        importance=6,
    ),
    Template("rest", N_("Eat, drink, sit down"), (10, 15, 20), "previous", fills=True),
    Template("arrivals", N_("Guests arrive"), (15, 20, 30), "ceremony", leads="ceremony"),
    Template(
        "ceremony",
        N_("Ceremony"),
        (20, 25, 35),
        "ceremony",
        "ceremony",
        importance=10,
        delay=(0, 3, 15),
        movable=False,
    ),
    Template(
        "confetti",
        N_("Congratulations"),
        (10, 20, 30),
        "previous",
        "congratulations",
        short=10,
        importance=6,
    ),
    Template("groups", N_("Group photographs"), (0, 0, 0), "groups", once=True, importance=8),
    Template(
        "portraits",
        N_("Portraits of the two"),
        (15, 25, 40),
        "portraits",
        once=True,
        short=12,
        importance=8,
        wet=(15, 20, 30),
    ),
    Template(
        "details",
        N_("The room, before guests"),
        (10, 15, 25),
        "meal",
        once=True,
        short=5,
        droppable=True,
        importance=3,
    ),
    Template("drinks", N_("Drinks"), (0, 45, 75), "meal", "drinks", fills=True),
    Template("meal_call", N_("Guests are called to the meal"), (5, 10, 15), "meal", leads="meal"),
    Template(
        "meal", N_("Meal (eat something too)"), (75, 100, 130), "meal", "meal", delay=(0, 5, 20)
    ),
    Template(
        "speeches", N_("Speeches"), (10, 30, 60), "meal", "speeches", importance=7, delay=(0, 5, 20)
    ),
    Template(
        "golden",
        N_("Golden light, the two of them"),
        (10, 20, 30),
        "portraits",
        once=True,
        short=8,
        droppable=True,
        importance=4,
        wet=NOTHING,
    ),
    Template("cake", N_("Cake"), (5, 5, 10), "party", "cake", delay=(0, 5, 15)),
    Template(
        "dance", N_("First dance"), (5, 8, 15), "party", "dance", importance=7, delay=(0, 5, 20)
    ),
    Template("party", N_("Party"), (30, 60, 90), "party", "party", fills=True),
    Template("pack", N_("Second copy of the cards, pack"), (15, 20, 30), "previous"),
)


def _with(blocks: tuple[Template, ...], **minutes: Minutes) -> tuple[Template, ...]:
    """The template with other minutes for some kinds; a kind with (0, 0, 0) goes."""
    changed = (_lasting(b, minutes[b.kind]) if b.kind in minutes else b for b in blocks)
    return tuple(b for b in changed if b.kind == "groups" or b.minutes[2] > 0)


def _lasting(block: Template, minutes: Minutes) -> Template:
    """With other minutes, and no short form or wet one that would be longer."""
    short = block.short if block.short and block.short < minutes[1] else None
    wet = block.wet if block.wet and block.wet[1] <= minutes[1] else None
    return replace(block, minutes=minutes, short=short, wet=wet)


TWO_PLACES = _with(ONE_PLACE, ceremony=(35, 45, 65), confetti=(15, 25, 40), meal_call=(10, 15, 20))
NIGHT = Template(
    "night", N_("Charge the batteries, check both copies of the cards"), (30, 45, 60), "home"
)
SEVERAL_DAYS = (
    *_with(
        ONE_PLACE,
        ready=(75, 105, 150),
        arrivals=(15, 25, 40),
        ceremony=(25, 45, 90),
        confetti=(20, 30, 50),
        portraits=(20, 30, 45),
        drinks=(0, 60, 90),
        meal_call=(10, 20, 30),
        meal=(90, 120, 180),
        speeches=(20, 45, 90),
    ),
    NIGHT,
)
SMALL = _with(
    ONE_PLACE,
    setup=(5, 10, 15),
    ready=(20, 30, 45),
    arrivals=NOTHING,
    ceremony=(10, 20, 30),
    confetti=(0, 5, 10),
    portraits=(45, 75, 120),
    details=NOTHING,
    drinks=NOTHING,
    meal_call=NOTHING,
    meal=(60, 90, 120),
    speeches=NOTHING,
    pack=(10, 15, 20),
)
WINTER = _with(ONE_PLACE, setup=(15, 20, 30), confetti=(5, 10, 20), portraits=(10, 20, 30))

STYLES = {
    "one_place": Style(N_("One place, civil ceremony"), ONE_PLACE),
    "two_places": Style(N_("Ceremony and reception apart"), TWO_PLACES),
    "several_days": Style(N_("Two ceremonies, or several days"), SEVERAL_DAYS),
    "small": Style(N_("Very small wedding"), SMALL),
    "winter": Style(N_("Dark winter day"), WINTER),
}
OTHER = Template("other", N_("Something else"), (10, 15, 30), "previous", "other")
KINDS = {block.kind: block.title for block in (*ONE_PLACE, NIGHT, OTHER)}
# What the couple mention and a kind of day has no block for comes before "pack".
NO_PACK = Template("pack", "", NOTHING, "previous")


def style_of(key: str) -> Style:
    """The style of that key; one that is no longer known lays out a day at one place."""
    return STYLES.get(key) or STYLES["one_place"]


def blocks_of(brief: Brief) -> tuple[Template, ...]:
    """The blocks of the brief's kind of day: the studio's own, or those of a built-in one."""
    own = brief.own_blocks
    if not own:
        return style_of(brief.style).blocks
    return own if any(block.kind == "pack" for block in own) else (*own, NO_PACK)


def fillers_of(brief: Brief) -> set[str]:
    """Kinds of block that take what time is left in the brief's kind of day."""
    fills = {b.kind: b.fills for b in (*ONE_PLACE, *blocks_of(brief))}
    return {kind for kind, gives_way in fills.items() if gives_way}


def template_for(moment_kind: str) -> Template:
    """What lays out a moment that the style's own blocks have no room for."""
    return next((t for t in ONE_PLACE if t.moment == moment_kind), OTHER)
