"""What must be true by when: the ready list as one table, from the contract to the second copy.

Every date is `common practice, no source` unless the item names one; studios add items of their
own, and say of each wedding what it does not need.
"""

from __future__ import annotations

from datetime import time

from .cover import KINDS
from .ready_values import Due, Item
from .values import N_

SUPPER, LATE, BED = time(18), time(20), time(21)
BACKUPS = N_(
    "US-CERT’s advice on backups: three copies, on two kinds of medium, one of them elsewhere "
    "(as restated by the University of Illinois Chicago)"
)
TIRED = N_("Highway Code, rule 91: stop for 15 minutes after every two hours of driving")


def _before(days: int) -> Due:
    return Due("before", days, SUPPER)


def _evening(at: time = SUPPER) -> Due:
    return Due("evening", at=at)


PAPERS = (
    Item(
        "contract",
        N_("Contract signed, and a copy to hand"),
        _before(84),
        N_(
            "It says which hours, what you hand over and what happens if either side cannot come. "
            "With a copy on the phone nobody has to remember it on the day."
        ),
        caution=N_("Ask a lawyer where unsure: the law of the place decides."),
    ),
    Item(
        "sent",
        N_("Questionnaire sent to the couple"),
        _before(84),
        N_("The answers make the timeline, the groups and the light; they need weeks, not days."),
        page="link",
    ),
    Item(
        "answered",
        N_("Questionnaire answered"),
        _before(56),
        N_("What is missing now can still be asked calmly. On the day it is guessed."),
        page="answers",
    ),
    Item(
        "meeting",
        N_("Planning meeting held"),
        _before(42),
        N_(
            "One hour in which you both hear the same: how long the groups take, what the light "
            "allows, what you cannot promise."
        ),
        page="meeting",
    ),
    Item(
        "abroad",
        N_("Papers to travel and to work there, tickets, a bed"),
        _before(42),
        N_("Some countries want a permit for paid work, or a list of the equipment at the border."),
        only="abroad",
        caution=N_(
            "Ask the country’s own authority. Spare lithium batteries fly in the cabin with their "
            "contacts covered: ask the airline for its limits."
        ),
    ),
    *(
        Item(
            f"insurance-{kind}",
            title,
            _before(28),
            N_(
                "A policy may lapse in the middle of a season, or stop at a border. Places ask for "
                "the certificate, and a claim asks for the date."
            ),
            page="insurance",
            only="insurance",
            kind=kind,
            caution=N_("What you must hold is for local law and your insurer to say."),
        )
        for kind, title in KINDS.items()
    ),
)
PEOPLE = (
    Item(
        "groups",
        N_("Group photographs agreed with the couple"),
        _before(28),
        N_(
            "How many groups, who is in them and how long they take is where days run late. Agreed "
            "in writing, nobody is disappointed."
        ),
        page="meeting",
        only="groups",
    ),
    Item(
        "stand-in",
        N_("Somebody who would step in if you are ill"),
        _before(28),
        N_(
            "A photographer whose work you trust, who is free that day and knows where the day "
            "pack is. Nobody finds one at six in the morning."
        ),
    ),
    Item(
        "consent",
        N_("Known who may be shown, and consent to hand"),
        _before(14),
        N_("Who may be photographed and shown is theirs to say; of children, their parents’."),
        page="answers",
        caution=N_("The law of the place decides what consent is needed, and in which form."),
    ),
    Item(
        "coordinator",
        N_("Whoever is in charge at each place has confirmed"),
        _before(10),
        N_(
            "When you may come in, where you may stand, flash or none, where you may leave a bag. "
            "Their answer beats any plan."
        ),
        page="papers",
    ),
    Item(
        "visit",
        N_("Places visited, at the hour that matters"),
        _before(7),
        N_(
            "You see where the sun stands, where people get wet, where the sockets are and how "
            "long the walk is."
        ),
        page="visit",
        caution=N_("Look for traffic, water, steep ground and low branches where people stand."),
    ),
    Item(
        "helpers",
        N_("Helpers briefed, with the calling list"),
        _before(5),
        N_("Somebody who knows the faces fetches the next group while you photograph this one."),
        page="papers",
        only="groups",
    ),
    Item(
        "second",
        N_("Second photographer briefed, with their sheet"),
        _before(5),
        N_("Where they are and when, whose the groups are, who copies which cards."),
        page="papers",
        only="second",
    ),
    Item(
        "final-word",
        N_("Last word with the couple: nothing has changed"),
        _before(5),
        N_("A time that moved, a guest who cannot come: better heard now than at the church."),
        page="meeting",
    ),
    Item(
        "day-pack",
        N_("Day pack printed, and on the phone"),
        _before(2),
        N_("Paper needs no battery and no network."),
        page="papers",
    ),
)
EVENING = (
    Item(
        "weather",
        N_("Forecast read, rain or heat decided"),
        _evening(),
        N_("The places need notice for the wet-weather plan; people need shade and water in heat."),
        page="day",
        caution=N_("In a storm or great heat the place’s own people and the warnings decide."),
    ),
    Item(
        "cards",
        N_("Cards formatted, in the cameras that use them"),
        _evening(),
        N_(
            "An empty, freshly formatted card fails least and never runs full by surprise. Only "
            "after the two copies of what was on it are checked: formatting wipes them."
        ),
    ),
    Item(
        "clocks",
        N_("Clocks of all cameras set alike, to the time there"),
        _evening(),
        N_(
            "Two cameras a minute apart shuffle the day for ever. Set both by the same phone, in "
            "the time zone of the wedding."
        ),
    ),
    Item(
        "raw",
        N_("Raw recording on, both slots writing"),
        _evening(),
        N_("A setting left over from another job cannot be mended afterwards."),
    ),
    Item(
        "beep",
        N_("Beep and electronic sounds off"),
        _evening(),
        N_("In a silent room everybody hears it, and so does the film."),
    ),
    Item(
        "batteries",
        N_("Batteries charged, of cameras, flashes and phone"),
        _evening(BED),
        N_("The last one needs its hours too: begin when you come home, not at bedtime."),
        page="bag",
        caution=N_(
            "Charge lithium batteries in sight, on a hard surface, never a swollen or damaged one."
        ),
    ),
    Item(
        "bag",
        N_("Bag packed and counted"),
        _evening(LATE),
        N_("Counted against the list the evening before, since a shop is shut in the morning."),
        page="bag",
    ),
    Item(
        "clothes",
        N_("Clothes and shoes laid out, for rain too"),
        _evening(LATE),
        N_("You stand and kneel for ten hours: what fits the place, and shoes that are worn in."),
    ),
    Item(
        "food",
        N_("Water and something to eat packed"),
        _evening(LATE),
        N_("The meal may come late or not at all, and a hungry photographer sees less."),
        caution=N_("In heat drink before you are thirsty, and sit down in the shade."),
    ),
    Item(
        "car",
        N_("Car fuelled or charged, or the ticket bought"),
        _evening(LATE),
        N_("There is no time for it in the morning, and none at all at night."),
        caution=TIRED,
        source=TIRED,
    ),
    Item(
        "alarm",
        N_("Alarm set, and a second one"),
        _evening(BED),
        N_("Counted back from when you leave home, with time to eat."),
        page="day",
        caution=N_("Sleep is equipment too: a tired drive home is the most dangerous part."),
    ),
)
AFTERWARDS = (
    Item(
        "route",
        N_("Route looked up: closed roads, traffic, where to park"),
        Due("morning"),
        N_("The drive in the plan is a usual day’s and a third more. Today may be another."),
        page="day",
        caution=N_("Look before you drive, never while you drive."),
    ),
    Item(
        "copies",
        N_("Two copies of every card made, and opened to check"),
        Due("night"),
        N_(
            "Until then the day exists once, on something the size of a stamp. A copy that nobody "
            "opened is a hope. The cards stay as they are until both are checked."
        ),
        source=BACKUPS,
        caution=N_("Too tired to drive means too tired to copy: copy first, with the cards safe."),
    ),
    Item(
        "elsewhere",
        N_("One copy in another place"),
        Due("after", at=SUPPER),
        N_("Theft, fire and water take everything in one room together."),
        source=BACKUPS,
    ),
)
ITEMS: tuple[Item, ...] = (*PAPERS, *PEOPLE, *EVENING, *AFTERWARDS)
