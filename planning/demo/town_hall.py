"""A town hall and a garden lunch, on a Friday in May: all answered in German, not sent yet."""

from __future__ import annotations

from datetime import date

from planning.compute.values import Brief, Care, Contact, DayBrief, Leg, Place, Spot

from . import dates
from .questions import allowed
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
        language="de",
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
            person("Oisín Ó Dálaigh", "Siobháns Bruder", "07700 900613"),
            person("Markéta Dvořáková", "Petrs Schwester", "07700 900614"),
        ),
        helpers=(
            helper("Ayşegül Kaya", "first", "07700 900615"),
            helper("Šimon Dvořák", "second", "07700 900616"),
        ),
        suppliers=(
            person("Wild Carrot", "Essen", "01632 960621"),
            person("Hallowby Ukulele Circle", "Musik", "07700 900617"),
        ),
        groups=GROUPS,
        must_haves=(
            wish("Unsere beiden Mütter, wie sie als Trauzeuginnen unterschreiben", "ceremony"),
            wish("Petrs Großmutter und die erste Erdbeere", "meal"),
            wish("Das Fahrrad, auf dem wir ankommen, mit allen Bändern"),
        ),
        cares=(
            Care("seat", BABICKA, note="Ein Stuhl im Schatten; sie spricht nur Tschechisch."),
            Care("child", "Anežka Dvořáková", note="Elf Wochen alt. Stillen geht vor."),
            Care("no_photo", "Solomon Tesfaye", note="Unser Freund vom Standesamt, heute privat."),
            Care(
                "other",
                "ليلى منصور",
                note="Sehr schüchtern: Sie stellt sich nach hinten. Bitte lassen.",
            ),
        ),
        matters="Kurze Trauung, langes Essen. Niemand soll stundenlang herumgeschoben werden.",
        anything_else="Nach sechs nichts mehr: das Baby und der letzte Zug.",
        allowed=allowed("no", "no", "two", "ask"),
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
            moment("getting_ready", "Kaffee, Bänder, Hemden", "09:15", "garden"),
            moment("ceremony", "Die Trauung im alten Ratssaal", "11:30", "hall"),
            moment("meal", "Langes Essen unter den Reben", "14:30", "garden"),
            moment("speeches", "Zwei Reden und ein Gedicht", place="garden"),
            moment("cake", "Erdbeeren und Kuchen", "16:45", "garden"),
        ),
    )


HALL = Place(
    key="hall",
    name="Hallowby Town Hall",
    uses=frozenset({"ceremony"}),
    address="Market Place, Hallowby",
    spot=Spot(52.37218, -2.79861),
    coordinator=Contact("Das Standesamt, Schalter", phone="01632 960611"),
    wet_plan="Die Arkaden auf der Marktseite.",
    not_allowed="Der Saal gehört uns eine Dreiviertelstunde. Kein Konfetti auf der Treppe.",
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
    wet_plan="Das alte Rebenhaus: Glasdach, Platz für vierzig.",
    not_allowed="Niemand in die Beete. Der Teich hat kein Geländer: Kinder nur mit Erwachsenen.",
)

GROUPS = numbered(
    everybody("Alle vor der Südmauer", 34),
    must("Siobháns Familie", *HER_MOTHERS, *HER_BROTHER, extra=3),
    must("Petrs Familie", *HIS_PARENTS, *HIS_SISTER, BABICKA, extra=2),
    must("Die Mütter und der Vater", *HER_MOTHERS, *HIS_PARENTS),
    must("Babička mit dem Baby", BABICKA, "Anežka Dvořáková"),
    nice("Die WG aus der Wacholderstraße", *FRIENDS),
)
