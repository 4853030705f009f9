"""A town hall and a garden lunch, on a Friday in May: all answered, not sent yet."""

from __future__ import annotations

from datetime import date

from planning.compute.values import Brief, Care, Contact, DayBrief, Leg, Place, Spot

from . import dates
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

ID = "demo-town-hall"
HER_MOTHERS = ("Gráinne Ní Dhálaigh", "Astrid Bjørnstad")
HER_BROTHER = ("Oisín Ó Dálaigh", "Ayşegül Kaya")
HIS_PARENTS = ("Jarmila Žáčková", "Bohumil Žáček")
HIS_SISTER = ("Markéta Dvořáková", "Šimon Dvořák", "Anežka Dvořáková")
BABICKA = "Květoslava Říhová"
FRIENDS = ("נעמי לוי", "ليلى منصور", "Ödön Szőke", "Wanjirũ Kamau", "Ștefan Țurcanu")


def wedding(today: date) -> DemoWedding:
    day = dates.next_near(today, 5, 21, dates.FRIDAY)
    return DemoWedding(
        brief=brief(day),
        saved_at=dates.lately(today, 1, "23:10"),
    )


def brief(day: date) -> Brief:
    return Brief(
        wedding=ID,
        partners=(
            partner("Siobhán Ní Dhálaigh", "Siobhán", "", "07700 900611", "siobhan@example.org"),
            partner("Petr Žáček", "Petr", "", "07700 900612", "petr@example.org"),
        ),
        zone="Europe/London",
        style="two_places",
        days=(_day(day),),
        places=(HALL, GARDEN),
        legs=(
            Leg(None, "hall", 14),
            Leg(None, "garden", 19),
            Leg("hall", "garden", 11),
            Leg("garden", None, 19),
        ),
        contacts=(
            person("Oisín Ó Dálaigh", "Siobhán’s brother", "07700 900613"),
            person("Markéta Dvořáková", "Petr’s sister", "07700 900614"),
        ),
        helpers=(
            helper("Ayşegül Kaya", "first", "07700 900615"),
            helper("Šimon Dvořák", "second", "07700 900616"),
        ),
        suppliers=(
            person("Wild Carrot", "Food", "01632 960621"),
            person("Hallowby Ukulele Circle", "Music", "07700 900617"),
        ),
        groups=GROUPS,
        must_haves=(
            wish("Both our mothers signing as witnesses", "ceremony"),
            wish("Petr’s grandmother and the first strawberry", "meal"),
            wish("The bicycle we arrive on, with all its ribbons"),
        ),
        cares=(
            Care("seat", BABICKA, note="A chair in the shade; she speaks Czech only."),
            Care("child", "Anežka Dvořáková", note="Eleven weeks. Feeding comes first."),
            Care("no_photo", "Solomon Tesfaye", note="Our registrar friend, off duty."),
            Care("other", "ليلى منصور", note="Very shy: she will stand at the back. Let her."),
        ),
        matters="A short ceremony and a long lunch. Nobody should be moved about for hours.",
        anything_else="Nothing after six: the baby, and the last train.",
        saved_steps=EVERY_STEP,
        answers_due=dates.before(day, 9, dates.SUNDAY),
        visit_at=dates.at(dates.before(day, 2, dates.FRIDAY), "14:30"),
        **PHOTOGRAPHER,
    )


def _day(day: date) -> DayBrief:
    return DayBrief(
        "day-1",
        day,
        "",
        clock("09:00"),
        clock("18:00"),
        (
            moment("getting_ready", "Coffee, ribbons, shirts", "09:15", "garden"),
            moment("ceremony", "The signing, in the old council room", "11:30", "hall"),
            moment("meal", "A long lunch under the vines", "14:30", "garden"),
            moment("speeches", "Two toasts and a poem", place="garden"),
            moment("cake", "Strawberries and cake", "16:45", "garden"),
        ),
    )


HALL = Place(
    key="hall",
    name="Hallowby Town Hall",
    uses=frozenset({"ceremony"}),
    address="Market Place, Hallowby",
    spot=Spot(52.37218, -2.79861),
    coordinator=Contact("The registrars’ desk", phone="01632 960611"),
    wet_plan="The arcade on the market side.",
    not_allowed="The room is ours for three quarters of an hour. No confetti on the steps.",
)

GARDEN = Place(
    key="garden",
    name="The walled garden at Upper Quillow",
    uses=frozenset({"getting_ready", "groups", "portraits", "meal", "party"}),
    address="Pump Lane, Upper Quillow",
    spot=Spot(52.35906, -2.70258),
    coordinator=Contact(
        "Ottoline Fairweather", phone="01632 960612", email="garden@quillow.example"
    ),
    wet_plan="The old vinery: glass roof, room for forty.",
    not_allowed="Nobody on the beds. The pond has no rail: children with a grown-up.",
)

GROUPS = numbered(
    everybody("Everyone along the south wall", 34),
    must("Siobhán’s family", *HER_MOTHERS, *HER_BROTHER, extra=3),
    must("Petr’s family", *HIS_PARENTS, *HIS_SISTER, BABICKA, extra=2),
    must("The mothers and the father", *HER_MOTHERS, *HIS_PARENTS),
    must("Babička with the baby", BABICKA, "Anežka Dvořáková"),
    nice("The house in Juniper Street", *FRIENDS),
)
