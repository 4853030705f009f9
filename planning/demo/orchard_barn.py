"""One place, civil ceremony, in summer: answered and sent, the planning meeting is set."""

from __future__ import annotations

from datetime import date

from planning.compute.values import Brief, Care, Contact, DayBrief, Leg, Place, Spot

from . import dates
from .questions import allowed, said
from .wedding import (
    EVERY_STEP,
    PHOTOGRAPHER,
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

ID = "demo-orchard-barn"
AMMA, DZIADEK = "Ingibjörg Einarsdóttir", "Stanisław Wójcik"
HER_PARENTS = ("Guðrún Jónsdóttir", "Sigurður Björnsson")
HER_BROTHER = ("Ragnar Sigurðsson", "Elísabet Ólafsdóttir", "Freyja Ragnarsdóttir")
HIS_PARENTS = ("Małgorzata Wiśniewska", "Zbigniew Wiśniewski")
HIS_SISTER = ("Agnieszka Brown", "Daniel Brown", "Antoni Brown", "Zosia Brown")
WITNESSES = ("Priya Venkat", "Mateusz Kowalczyk")


def wedding(today: date) -> DemoWedding:
    day = dates.next_near(today, 6, 15, dates.SATURDAY)
    said = brief(day)
    sent = dates.lately(today, 4, "21:40", said.answers_due)
    return DemoWedding(brief=said, saved_at=sent, sent_at=sent)


def brief(day: date) -> Brief:
    return Brief(
        wedding=ID,
        partners=(
            partner("Þóra Sigurðardóttir", "Þóra", "bride", "07700 900112", "thora@example.org"),
            partner("Łukasz Wiśniewski", "Łukasz", "groom", "07700 900113", "lukasz@example.org"),
        ),
        zone="Europe/London",
        style="one_place",
        days=(_day(day),),
        places=(BARN,),
        legs=(Leg(None, "barn", 38), Leg("barn", None, 38)),
        contacts=(
            person("Guðrún Jónsdóttir", "Þóra’s mother", "07700 900114"),
            person("Agnieszka Brown", "Łukasz’s sister, runs the morning", "07700 900115"),
        ),
        helpers=(
            helper("Ragnar Sigurðsson", "first", "07700 900116"),
            helper("Daniel Brown", "second", "07700 900117"),
        ),
        suppliers=(
            person("Petra Hollis", "Flowers", "01632 960121"),
            person("Copper Kettle Caterers", "Food and drink", "01632 960122"),
            person("The Hayloft Five", "Band", "07700 900118"),
            person("Jonah Adeyemi", "Film", "07700 900119"),
        ),
        groups=GROUPS,
        must_haves=(
            wish("My amma’s silver belt on the dress, close", "getting_ready"),
            wish("Bread and salt from Łukasz’s parents at the barn door", "congratulations"),
            wish("Everybody singing: Ragnar starts, nobody is warned", "meal"),
            wish("The two of us between the old pear trees, no one else"),
        ),
        cares=(
            Care("seat", AMMA, note="Ninety-one. Ten minutes on her feet, then a chair, please."),
            Care("step_free", DZIADEK, note="Uses a wheelchair; the orchard path is gravel."),
            Care("child", "Freyja Ragnarsdóttir", note="Five. Brave until about three o’clock."),
            Care("child", "Zosia Brown", note="Seven, and Antoni is her twin."),
            Care("grieves", "Sigurður Björnsson", note="He lost his brother not long ago."),
            Care("no_photo", "Ewa Lis", note="A guest of ours; please keep her out of the web."),
        ),
        matters=(
            "Both families have never been in one country together. Photograph them meeting, "
            "more than the decorations."
        ),
        anything_else="The bees at the bottom of the orchard are real. Keep to the mown path.",
        allowed=allowed("ask", "ask", "guests", "yes"),
        sharing_note="Nothing before we have told our grandparents, please: give us a week.",
        own_answers=said(
            camera="Shy at first",
            made="The seed packets, one for every guest. Łukasz carved the cake stand.",
            animals="Yes",
        ),
        saved_steps=EVERY_STEP | {"more"},
        answers_due=dates.before(day, 10, dates.SUNDAY),
        meeting_at=dates.at(dates.before(day, 8, dates.TUESDAY), "18:30"),
        visit_at=dates.at(dates.before(day, 1, dates.WEDNESDAY), "20:30"),
        **PHOTOGRAPHER,
    )


def _day(day: date) -> DayBrief:
    return DayBrief(
        "day-1",
        day,
        "",
        clock("10:30"),
        clock("22:30"),
        (
            moment("getting_ready", "Þóra gets ready in the loft room", "11:00", "barn"),
            moment("ceremony", "Our ceremony under the pear trees", "13:30", "barn"),
            moment("meal", "Long tables in the barn", "16:15", "barn"),
            moment("speeches", "Three speeches, all short", "18:00", "barn"),
            moment("cake", "Cake, and a layer of pierogi", "19:30", "barn"),
            moment("dance", "First dance", "20:00", "barn"),
            moment("party", "The band plays", place="barn"),
        ),
    )


BARN = Place(
    key="barn",
    name="Orchard Barn",
    uses=frozenset({"getting_ready", "ceremony", "groups", "portraits", "meal", "party"}),
    address="Orchard Barn, Sallow Lane, Nether Quillow, near Hallowby",
    spot=Spot(52.34127, -2.61274),
    coordinator=Contact(
        "Marguerite Toussaint", phone="01632 960131", email="marguerite@orchardbarn.example"
    ),
    wet_plan="Ceremony in the barn; groups in the cart shed, doors open, which faces north.",
    not_allowed="No confetti that is not petals. No sparklers near the thatch. No drones.",
    note="Power in the cart shed is one socket, on the left.",
    ceremony_facing=110.0,
    group_facing=20.0,
    skyline=((60.0, 4.0), (110.0, 6.0), (250.0, 5.0), (290.0, 4.0), (315.0, 3.0), (340.0, 3.0)),
)

GROUPS = numbered(
    everybody("Everybody, from the loft window", 78),
    must("Þóra’s whole family", *HER_PARENTS, *HER_BROTHER, AMMA, extra=6),
    must("Łukasz’s whole family", *HIS_PARENTS, *HIS_SISTER, DZIADEK, extra=5),
    must("Both sets of parents", *HER_PARENTS, *HIS_PARENTS),
    must("Þóra’s parents and brother", *HER_PARENTS, *HER_BROTHER),
    must("Łukasz’s parents and sister", *HIS_PARENTS, *HIS_SISTER),
    must("Amma and Dziadek", AMMA, DZIADEK),
    nice("Our witnesses", *WITNESSES),
)
