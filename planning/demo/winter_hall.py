"""A dark winter day: answered, met, nearly ready."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from planning.compute.values import Brief, Care, Contact, DayBrief, Leg, Place, Spot

from . import dates
from .questions import allowed, said
from .wedding import (
    EVERY_STEP,
    PHOTOGRAPHER,
    DemoAgreement,
    DemoWedding,
    clock,
    everybody,
    helper,
    moment,
    must,
    nice,
    numbered,
    partner,
    person,
    wish,
)

ID = "demo-winter-hall"
HER_PARENTS = ("Folasade Oyelaran", "Gideon Oyelaran")
HER_SISTER = ("Tolu Oyelaran-Price", "Huw Price", "Ezra Price")
ANNE, BABA = "Nuray Çelik", "Orhan Çelik"
HIS_BROTHER = ("Emre Çelik", "Zeynep Aydın", "Defne Çelik")
BABAANNE = "Hatice Çelik"


def wedding(today: date) -> DemoWedding:
    day = dates.next_dark_saturday(today)
    said = brief(day)
    sent = dates.lately(today, 12, "19:20", said.answers_due)
    agreement = DemoAgreement(
        shared_at=dates.lately(today, 8, "18:50"),
        by="Harriet Oyelaran",
        confirmed_at=dates.lately(today, 7, "07:35"),
        before=as_agreed,
        notes=NOTES,
        points=("Who lights the candles in the library, and from when?",),
    )
    return DemoWedding(
        brief=said,
        saved_at=dates.lately(today, 3, "20:15"),
        sent_at=sent,
        agreement=agreement,
    )


def as_agreed(brief: Brief) -> Brief:
    """As it was at the meeting: later toasts, no walkers, and no stairs for a wet day."""
    (day,) = brief.days
    moments = (replace(m, at=clock("17:55")) if m.kind == "speeches" else m for m in day.moments)
    house = replace(brief.places[0], wet_plan="The library: tall west windows, room for twenty.")
    return replace(
        brief,
        days=(replace(day, moments=tuple(moments)),),
        places=(house,),
        groups=brief.groups[:-1],
    )


def brief(day: date) -> Brief:
    return Brief(
        wedding=ID,
        partners=(
            partner("Harriet Oyelaran", "Hattie", "", "07700 900411", "hattie@example.org"),
            partner("Mehmet Çelik", "Mehmet", "", "07700 900412", "mehmet@example.org"),
        ),
        zone="Europe/London",
        style="winter",
        days=(_day(day),),
        places=(HOUSE,),
        legs=(Leg(None, "house", 67), Leg("house", None, 67)),
        contacts=(
            person("Tolu Oyelaran-Price", "Hattie’s sister and witness", "07700 900413"),
            person("Emre Çelik", "Mehmet’s brother and witness", "07700 900414"),
        ),
        helpers=(
            helper("Huw Price", "first", "07700 900415"),
            helper("Zeynep Aydın", "second", "07700 900416"),
        ),
        suppliers=(
            person("Birch & Bramble", "Flowers and candles", "01632 960421"),
            person("Anatole Weiss", "Piano", "07700 900417"),
            person("Peggy’s Kitchen", "Food", "01632 960422"),
        ),
        groups=GROUPS,
        must_haves=(
            wish("The last blue light behind the house, with the windows lit"),
            wish("Ezra asleep somewhere he should not be", "party"),
            wish("Our rings on the old weather chart from Dad’s ship", "getting_ready"),
        ),
        cares=(
            Care("seat", BABAANNE, note="Chair near the stove; she feels the cold."),
            Care("child", "Ezra Price", note="Two, naps about one o’clock."),
            Care("child", "Defne Çelik", note="Nine, wants to hold the reflector. Let her."),
            Care("grieves", ANNE, note="First winter without her sister."),
            Care("step_free", "Gideon Oyelaran", note="New knee: the ramp, not the front steps."),
        ),
        matters="Warmth. We chose the darkest time of year on purpose: candles, faces, windows.",
        anything_else="Snow chains are in the gatehouse, should the lane need them.",
        allowed=allowed("undecided", "no", "guests", "ask"),
        own_answers=said(camera="We would rather not notice it"),
        not_asked=frozenset({"moment.congratulations", "step.pictures"}),
        saved_steps=EVERY_STEP | {"more"},
        answers_due=dates.before(day, 10, dates.SUNDAY),
        meeting_at=dates.at(dates.before(day, 6, dates.WEDNESDAY), "18:00"),
        visit_at=dates.at(dates.before(day, 1, dates.THURSDAY), "15:00"),
        **PHOTOGRAPHER,
    )


def _day(day: date) -> DayBrief:
    return DayBrief(
        "day-1",
        day,
        "",
        clock("09:15"),
        clock("20:30"),
        (
            moment("getting_ready", "Both of us, at two ends of the house", "09:45", "house"),
            moment("ceremony", "Ceremony by the fire", "12:30", "house"),
            moment("meal", "Late lunch by candlelight", "15:45", "house"),
            moment("speeches", "Toasts", "17:40", "house"),
            moment("cake", "Baklava tower", "18:30", "house"),
            moment("dance", "First dance", "18:50", "house"),
            moment("party", "Piano, then halay", place="house"),
        ),
    )


HOUSE = Place(
    key="house",
    name="Saltmoor House",
    uses=frozenset({"getting_ready", "ceremony", "groups", "portraits", "meal", "party"}),
    address="Saltmoor House, High Saltmoor",
    spot=Spot(53.18042, -1.88713),
    coordinator=Contact(
        "Cressida Whitmarsh", phone="01632 960411", email="cressida@saltmoor.example"
    ),
    wet_plan="The library: tall west windows, room for twenty. The stairs for everyone.",
    not_allowed="No open flame beyond the hearth and the candles they set. No confetti indoors.",
    note="The track is gritted by nine. The yard is ice until then: walk, do not carry.",
)

NOTES = (
    ("day.moments.ceremony-1230", "No flash; from the gallery until the vows.", True),
    ("places.places.house", "Cressida sends a plan of the sockets.", False),
    ("groups.groups.group-5", "Stove side of the hall, with a chair.", True),
    ("care.carenotes.care-4", "Do not ask her to gather people.", False),
)

GROUPS = numbered(
    everybody("Everyone on the great stairs", 46),
    must("Hattie’s family", *HER_PARENTS, *HER_SISTER, extra=4),
    must("Mehmet’s family", ANNE, BABA, BABAANNE, *HIS_BROTHER, extra=3),
    must("All four parents", *HER_PARENTS, ANNE, BABA),
    must("Babaanne with her grandsons", BABAANNE, "Emre Çelik"),
    must("Witnesses", "Tolu Oyelaran-Price", "Emre Çelik"),
    nice("The Tuesday walkers", "Ruth Abelson", "Jiří Brabenec", "Comfort Asante", extra=4),
)
