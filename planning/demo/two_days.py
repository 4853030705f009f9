"""Two days and two ceremonies, in August: a tea ceremony on Friday, a church on Saturday."""

from __future__ import annotations

from datetime import date, timedelta

from planning.compute.values import Brief, Care, Contact, DayBrief, Leg, Place, Spot

from . import dates
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
    return DemoWedding(brief=said, saved_at=sent, sent_at=sent, agreement=agreement)


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
            person("Nguyễn Ngọc Mai", "Minh Anh’s sister, runs Friday", "07700 900313"),
            person("Cormac O’Neill", "Conor’s brother, runs Saturday", "07700 900314"),
            person("Phạm Thu Hà", "Minh Anh’s mother", "07700 900315"),
        ),
        helpers=(
            helper("Nguyễn Bảo Châu", "first", "07700 900316"),
            helper("Róisín Keane", "second", "07700 900317"),
        ),
        suppliers=(
            person("Saffron & Lime", "Friday’s lunch", "01632 960321"),
            person("Greenacre Marquees", "Marquee, lights, generator", "01632 960322"),
            person("Ngô Thảo Vy", "Hair and make-up, both mornings", "07700 900318"),
            person("The Turf Fiddlers", "Music", "07700 900319"),
        ),
        groups=GROUPS,
        must_haves=(
            wish("The trays under red cloth, before they are opened", "getting_ready"),
            wish("Bà Nội’s hands pouring the tea", "ceremony"),
            wish("The áo dài and the suit hanging side by side", "getting_ready"),
            wish("Dad O’Neill dancing. There will be a moment.", "party"),
        ),
        cares=(
            Care("seat", BA_NOI, note="Sits for every photograph; everyone else goes to her."),
            Care("step_free", NANA, note="Walking frame. The meadow is mown, but not flat."),
            Care("child", "Tadhg Keane", note="Three. Carries the rings as far as he wants to."),
            Care("child", "Lê Gia Hân", note="Six, shy of strangers; let her aunt call her."),
            Care("apart", "Fionn O’Neill", "Shane Darcy", "Old quarrel. Keep a row between them."),
            Care("no_photo", "Đỗ Quang Vinh", note="Works abroad; no photograph of his face."),
            Care("other", "Declan O’Neill", note="Flashes close by bring on his migraine."),
        ),
        matters="Two families, two ceremonies, neither one the rehearsal for the other.",
        anything_else="On Friday shoes come off at the door. Bring socks without holes!",
        saved_steps=EVERY_STEP,
        answers_due=dates.before(saturday, 11, dates.SUNDAY),
        meeting_at=dates.at(dates.before(saturday, 9, dates.THURSDAY), "19:00"),
        **PHOTOGRAPHER,
    )


def _friday(day: date) -> DayBrief:
    return DayBrief(
        "friday",
        day,
        "Lễ gia tiên: the tea ceremony at home",
        clock("08:15"),
        clock("15:15"),
        (
            moment("getting_ready", "Áo dài, hair, the trays", "08:30", "house"),
            moment("ceremony", "Tea ceremony before the ancestors’ altar", "10:45", "house"),
            moment("meal", "Lunch in the garden", "12:30", "house"),
        ),
    )


def _saturday(day: date) -> DayBrief:
    return DayBrief(
        "saturday",
        day,
        "Church and party",
        clock("10:00"),
        clock("23:30"),
        (
            moment("getting_ready", "Minh Anh and her sisters", "10:45", "house"),
            moment("ceremony", "Wedding Mass", "13:30", "church"),
            moment("meal", "Dinner in the marquee", "17:45", "meadow"),
            moment("speeches", "Speeches in three languages", "19:50", "meadow"),
            moment("cake", "Cake", place="meadow"),
            moment("dance", "First dance", "21:30", "meadow"),
            moment("party", "Fiddles, then Mai’s playlist", place="meadow"),
        ),
    )


HOUSE = Place(
    key="house",
    name="The Nguyễns’ house",
    uses=frozenset({"getting_ready", "ceremony"}),
    address="6 Quince Row, Saltersby",
    spot=Spot(52.66318, -2.86147),
    coordinator=Contact("Nguyễn Ngọc Mai", phone="07700 900313"),
    wet_plan="All indoors; the garden lunch moves to the garage, which is emptied for it.",
    not_allowed="Shoes indoors. Standing between the altar and the elders.",
    note="Small front room: one photographer, one wide lens.",
)

CHURCH = Place(
    key="church",
    name="Our Lady of the Meadows",
    uses=frozenset({"ceremony"}),
    address="Mill Road, Saltersby",
    spot=Spot(52.69042, -2.83905),
    coordinator=Contact("Father Ignatius Boateng", phone="01632 960311"),
    wet_plan="The side aisle has room for the families.",
    not_allowed="No flash, no moving about from the homily to the blessing.",
)

MEADOW = Place(
    key="meadow",
    name="Hollin Meadow",
    uses=frozenset({"groups", "portraits", "meal", "party"}),
    address="Second gate on Hollin Bank, Saltersby",
    spot=Spot(52.70813, -2.81126),
    coordinator=Contact("Roz Greenacre", phone="01632 960322", email="roz@greenacre.example"),
    wet_plan="The marquee’s open side under the oaks; the lining is white and lights well.",
    not_allowed="No sky lanterns, no sparklers: dry grass, and a neighbour’s horses.",
    note="Generator until midnight. Torch for the walk to the cars.",
)

GROUPS = numbered(
    everybody("Everyone in front of the oaks", 140),
    must("The Nguyễn family", *HER_PARENTS, *HER_SISTERS, BA_NOI, "Lê Gia Hân", extra=14),
    must("The O’Neills and the Keanes", *HIS_PARENTS, *HIS_BROTHERS, NANA, "Tadhg Keane", extra=17),
    must("Both sets of parents", *HER_PARENTS, *HIS_PARENTS),
    must("Grandmothers", BA_NOI, NANA),
    must("Minh Anh with her parents and sisters", *HER_PARENTS, *HER_SISTERS),
    must("Conor with his parents, brothers and Róisín", *HIS_PARENTS, *HIS_BROTHERS),
    nice("School friends", "Shane Darcy", "Ife Balogun", "Marek Novák", "Leila Farahani", extra=5),
)
