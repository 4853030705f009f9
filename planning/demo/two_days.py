"""Two days and two ceremonies, in August: tea on Friday, a church on Saturday; told in French.

A second photographer has the tent and the drinks on Saturday, while the groups are photographed.
"""

from __future__ import annotations

from datetime import date, timedelta

from planning.compute.settled import SECOND, Settled
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

ID = "demo-two-days"
BA_NOI = "Trần Thị Lan"
HER_PARENTS = ("Nguyễn Văn Hùng", "Phạm Thu Hà")
HER_SISTERS = ("Nguyễn Ngọc Mai", "Nguyễn Bảo Châu")
HIS_PARENTS = ("Bernadette O’Neill", "Declan O’Neill")
HIS_BROTHERS = ("Cormac O’Neill", "Fionn O’Neill", "Róisín Keane")
NANA = "Philomena Keane"


def wedding(today: date) -> DemoWedding:
    saturday = dates.next_near(today, 8, 22, dates.SATURDAY)
    said = brief(saturday)
    sent = dates.lately(today, 9, "20:05", said.answers_due)
    agreement = DemoAgreement(
        shared_at=dates.lately(today, 2, "20:40"),
        notes=(
            ("day.moments.ceremony-1045", "We stand by the window; shoes off, two lenses.", True),
            ("places.places.meadow", "Roz marks the flat way for the walking frame.", True),
        ),
        points=("Which of the two evenings gets the long portraits?",),
        objections=("Nana would like to be in the tea ceremony too, sitting at the left.",),
    )
    return DemoWedding(brief=said, saved_at=sent, sent_at=sent, language="fr", agreement=agreement)


def brief(saturday: date) -> Brief:
    return Brief(
        wedding=ID,
        partners=(
            partner("Nguyễn Minh Anh", "Minh Anh", "", "07700 900311", "minhanh@example.org"),
            partner("Conor O’Neill", "Conor", "", "07700 900312", "conor@example.org"),
        ),
        zone="Europe/London",
        style="several_days",
        days=(_friday(saturday - timedelta(days=1)), _saturday(saturday)),
        places=(HOUSE, CHURCH, MEADOW),
        legs=(
            Leg(None, "house", 52),
            Leg("house", None, 52),
            Leg("house", "church", 12),
            Leg("church", "meadow", 9),
            Leg("meadow", None, 58),
        ),
        contacts=(
            person("Nguyễn Ngọc Mai", "Sœur de Minh Anh, coordonne le vendredi", "07700 900313"),
            person("Cormac O’Neill", "Frère de Conor, coordonne le samedi", "07700 900314"),
            person("Phạm Thu Hà", "Mère de Minh Anh", "07700 900315"),
        ),
        helpers=(
            helper("Nguyễn Bảo Châu", "first", "07700 900316"),
            helper("Róisín Keane", "second", "07700 900317"),
        ),
        suppliers=(
            person("Saffron & Lime", "Le déjeuner du vendredi", "01632 960321"),
            person("Greenacre Marquees", "Tente, lumières, générateur", "01632 960322"),
            person("Ngô Thảo Vy", "Coiffure et maquillage, les deux matins", "07700 900318"),
            person("The Turf Fiddlers", "Musique", "07700 900319"),
        ),
        groups=GROUPS,
        must_haves=(
            wish("Les plateaux sous leur tissu rouge, avant qu’on les ouvre", "getting_ready"),
            wish("Les mains de Bà Nội qui versent le thé", "ceremony"),
            wish("L’áo dài et le costume suspendus côte à côte", "getting_ready"),
            wish("Papa O’Neill qui danse. Il y aura un moment.", "party"),
        ),
        cares=(
            Care(
                "seat",
                BA_NOI,
                note="Assise sur chaque photo ; ce sont les autres qui viennent à elle.",
            ),
            Care("step_free", NANA, note="Déambulateur. Le pré est fauché, mais pas plat."),
            Care(
                "child", "Tadhg Keane", note="Trois ans. Porte les alliances aussi loin qu’il veut."
            ),
            Care("child", "Lê Gia Hân", note="Six ans, timide ; que sa tante l’appelle."),
            Care(
                "apart",
                "Fionn O’Neill",
                "Shane Darcy",
                "Vieille querelle. Gardez un rang entre eux.",
            ),
            Care(
                "no_photo",
                "Đỗ Quang Vinh",
                note="Travaille à l’étranger ; pas de photo de son visage.",
            ),
            Care("other", "Declan O’Neill", note="Un flash trop près lui donne la migraine."),
        ),
        matters="Deux familles, deux cérémonies, et aucune n’est la répétition de l’autre.",
        anything_else="Le vendredi, on se déchausse. Prévoyez des chaussettes sans trous !",
        allowed=allowed("yes", "ask", "guests", "yes"),
        own_answers=said(camera="At ease", animals="No"),
        saved_steps=EVERY_STEP | {"more"},
        answers_due=dates.before(saturday, 11, dates.SUNDAY),
        meeting_at=dates.at(dates.before(saturday, 9, dates.THURSDAY), "19:00"),
        **PHOTOGRAPHER,
    )


def _friday(day: date) -> DayBrief:
    return DayBrief(
        "friday",
        day,
        "Lễ gia tiên : la cérémonie du thé à la maison",
        clock("08:15"),
        clock("15:15"),
        (
            moment("getting_ready", "Áo dài, coiffure, plateaux", "08:30", "house"),
            moment("ceremony", "Cérémonie du thé devant l’autel des ancêtres", "10:45", "house"),
            moment("meal", "Déjeuner au jardin", "12:30", "house"),
        ),
    )


def _saturday(day: date) -> DayBrief:
    return DayBrief(
        "saturday",
        day,
        "Église et fête",
        clock("10:00"),
        clock("23:30"),
        (
            moment("getting_ready", "Minh Anh et ses sœurs", "10:45", "house"),
            moment("ceremony", "Messe de mariage", "13:30", "church"),
            moment("meal", "Dîner sous la tente", "17:45", "meadow"),
            moment("speeches", "Discours en trois langues", "19:50", "meadow"),
            moment("cake", "Gâteau", place="meadow"),
            moment("dance", "Ouverture du bal", "21:30", "meadow"),
            moment("party", "Violons, puis la playlist de Mai", place="meadow"),
        ),
        settled=(
            Settled("saturday-details", who=SECOND),
            Settled("saturday-drinks", who=SECOND),
        ),
    )


HOUSE = Place(
    key="house",
    name="La maison des Nguyễn",
    uses=frozenset({"getting_ready", "ceremony"}),
    address="6 Quince Row, Saltersby",
    spot=Spot(52.66318, -2.86147),
    coordinator=Contact("Nguyễn Ngọc Mai", phone="07700 900313"),
    wet_plan="Tout à l’intérieur ; le déjeuner passe au garage, vidé pour l’occasion.",
    not_allowed="Les chaussures à l’intérieur. Se tenir entre l’autel et les anciens.",
    note="Petit salon : une seule personne, un grand-angle.",
)

CHURCH = Place(
    key="church",
    name="Our Lady of the Meadows",
    uses=frozenset({"ceremony"}),
    address="Mill Road, Saltersby",
    spot=Spot(52.69042, -2.83905),
    coordinator=Contact("Father Ignatius Boateng", phone="01632 960311"),
    wet_plan="Le bas-côté est assez grand pour les familles.",
    not_allowed="Pas de flash, pas de déplacements entre l’homélie et la bénédiction.",
)

MEADOW = Place(
    key="meadow",
    name="Hollin Meadow",
    uses=frozenset({"groups", "portraits", "meal", "party"}),
    address="Second gate on Hollin Bank, Saltersby",
    spot=Spot(52.70813, -2.81126),
    coordinator=Contact("Roz Greenacre", phone="01632 960322", email="roz@greenacre.example"),
    wet_plan="Le côté ouvert de la tente, sous les chênes ; la toile est blanche et éclaire bien.",
    not_allowed="Ni lanternes ni cierges magiques : herbe sèche, et les chevaux du voisin.",
    note="Générateur jusqu’à minuit. Une lampe pour rejoindre les voitures.",
)

GROUPS = numbered(
    everybody("Tout le monde devant les chênes", 140),
    must("La famille Nguyễn", *HER_PARENTS, *HER_SISTERS, BA_NOI, "Lê Gia Hân", extra=14),
    must("Les O’Neill et les Keane", *HIS_PARENTS, *HIS_BROTHERS, NANA, "Tadhg Keane", extra=17),
    must("Les parents des deux côtés", *HER_PARENTS, *HIS_PARENTS),
    must("Les grands-mères", BA_NOI, NANA),
    must("Minh Anh avec ses parents et ses sœurs", *HER_PARENTS, *HER_SISTERS),
    must("Conor avec ses parents, ses frères et Róisín", *HIS_PARENTS, *HIS_BROTHERS),
    nice("Amis d’école", "Shane Darcy", "Ife Balogun", "Marek Novák", "Leila Farahani", extra=5),
)
