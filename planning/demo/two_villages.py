"""Church and reception apart, in September: half answered, with much to talk about.

Planted on purpose: more than eight groups, an estranged pair in one of them, one guest in two
spellings, an ending after the booked hours, groups longer than their gap, no helper yet.
"""

from __future__ import annotations

from datetime import date

from planning.compute.values import Brief, Care, Contact, DayBrief, Leg, Place, Spot

from . import dates
from .wedding import (
    PHOTOGRAPHER,
    DemoWedding,
    clock,
    everybody,
    moment,
    must,
    nice,
    numbered,
    partner,
)

ID = "demo-two-villages"
MUM, DAD, STEPMUM = "Helena Figueiredo", "Rui Figueiredo", "Paula Mendes"
HER_BROTHERS = ("Duarte Figueiredo", "Tiago Figueiredo")
AVO = "Conceição Vasconcelos"
HIS_PARENTS = ("Morag Abernethy", "Alasdair Abernethy")
HIS_SISTERS = ("Eilidh Abernethy", "Catriona Lorimer")
BRIDESMAIDS = ("Inês Carvalho", "Siân Gethin", "Yewande Bello")
USHERS = ("Gavin Rennie", "Rhys Trefor", "Kofi Mensah", "Duarte Figueiredo")
# Broken off in the middle of a phone number, as a page of the step posts it.
HALF_A_LIST = {
    "helpers-TOTAL_FORMS": "1",
    "helpers-INITIAL_FORMS": "0",
    "helpers-0-key": "helper-1",
    "helpers-0-name": "Eilidh Abernethy",
    "helpers-0-side": "second",
    "helpers-0-phone": "07700 9002",
    "contacts-TOTAL_FORMS": "1",
    "contacts-INITIAL_FORMS": "0",
    "contacts-0-key": "contact-1",
    "suppliers-TOTAL_FORMS": "1",
    "suppliers-INITIAL_FORMS": "0",
    "suppliers-0-key": "supplier-1",
    "suppliers-0-role": "Cake",
}


def wedding(today: date) -> DemoWedding:
    day = dates.next_near(today, 9, 19, dates.SATURDAY)
    return DemoWedding(
        brief=brief(day),
        saved_at=dates.lately(today, 2, "22:55"),
        drafts={"people": HALF_A_LIST},
    )


def brief(day: date) -> Brief:
    return Brief(
        wedding=ID,
        partners=(
            partner("Beatriz Figueiredo", "Bea", "bride", "07700 900211", "beatriz@example.org"),
            partner("Euan Abernethy", "Euan", "groom", "", "euan@example.org"),
        ),
        zone="Europe/London",
        style="two_places",
        days=(_day(day),),
        places=(CHURCH, HALL),
        legs=(
            Leg(None, "church", 44),
            Leg("church", "hall", 26),
            Leg("hall", None, 31),
        ),
        groups=GROUPS,
        cares=(
            Care(
                "apart",
                MUM,
                STEPMUM,
                "Mum and Dad parted badly. With Dad alone she is fine; with Paula she is not.",
            ),
            Care("seat", AVO, note="Eighty-eight; she will say she can stand. She cannot."),
            Care("grieves", "Alasdair Abernethy", note="His mother died not long ago."),
            Care("other", "Kofi Mensah", note="Deaf in his left ear: call him from the right."),
        ),
        matters="The walk out of the church, and my grandmother’s face when she sees us.",
        anything_else="We are still talking about the evening. Sorry! More soon.",
        saved_steps=frozenset({"two-of-you", "day", "places", "groups", "care"}),
        answers_due=dates.before(day, 10, dates.SUNDAY),
        **PHOTOGRAPHER,
    )


def _day(day: date) -> DayBrief:
    return DayBrief(
        "day-1",
        day,
        "",
        clock("10:30"),
        clock("22:00"),
        (
            moment("getting_ready", "Bea gets ready at the hall", "10:45", "hall"),
            moment("ceremony", "The service", "13:30", "church"),
            moment("meal", "Dinner", "16:00", "hall"),
            moment("speeches", "Speeches, if Dad is allowed one", place="hall"),
            moment("dance", "First dance, a ceilidh reel", "20:00", "hall"),
            moment("party", "Ceilidh", place="hall"),
            moment("end", "Carriages", "23:30", "hall"),
        ),
    )


CHURCH = Place(
    key="church",
    name="St Elvin’s Church",
    uses=frozenset({"ceremony"}),
    address="Church Field, Ottermere",
    spot=Spot(52.12683, -2.90214),
    coordinator=Contact("The Revd Judith Amery", phone="01632 960211"),
    wet_plan="The porch holds ten. Otherwise straight to the cars.",
    not_allowed="No flash during the service. Stay behind the font. Petals outside the gate only.",
    note="The lane is one car wide; the coach needs the upper gate.",
)

HALL = Place(
    key="hall",
    name="Larkmoor Hall",
    uses=frozenset({"getting_ready", "groups", "portraits", "meal", "party"}),
    address="Larkmoor Hall, Larkmoor, near Hallowby",
    spot=Spot(52.20431, -2.73592),
    coordinator=Contact(
        "Desmond Achterberg", phone="01632 960212", email="events@larkmoor.example"
    ),
    not_allowed="Nobody on the lawn in front of the steps before six.",
)

GROUPS = numbered(
    everybody("Everyone on the steps", 112),
    must("Bea’s whole family", MUM, DAD, STEPMUM, *HER_BROTHERS, AVO, extra=11),
    must("Euan’s whole family", *HIS_PARENTS, *HIS_SISTERS, "Hamish Lorimer", extra=9),
    must("Bea with her mother and brothers", MUM, *HER_BROTHERS),
    must("Bea with her father and Paula", DAD, STEPMUM),
    must("Bea and her grandmother", AVO),
    must("Euan’s parents", *HIS_PARENTS),
    must("Euan and his sisters", *HIS_SISTERS),
    must("Bridesmaids", *BRIDESMAIDS),
    must("Best man and ushers", *USHERS),
    nice("Bridesmaids and ushers together", *BRIDESMAIDS, *USHERS),
    nice("Rowing club", "Sian Gethyn", "Rhys Trefor", "Gavin Rennie", "Noor Haddad", extra=8),
    nice("Godparents", "Fergus Ballantyne", "Teresa Lobo", "Isla Drummond"),
)
