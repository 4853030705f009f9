"""A summary made by hand for the tests of what is agreed. Everybody is invented."""

from dataclasses import replace

from planning.compute.agreed import Agreed, AgreedNote, Spoken
from planning.compute.agreed_plan import agreed_of
from planning.compute.day import plan_wedding
from planning.compute.values import Care, Contact, MustHave

from .briefs import BARN, group, make_brief, make_day, moment

SPOKEN = Spoken("The weather is nobody's to promise.", False, ("Mind the pond.",))
NOTE = AgreedNote("places.places.barn", "Orchard Barn", "Ring Ríona a week before.")
DAY = make_day(
    moment("ceremony", "14:00"),
    moment("meal", "17:00"),
    moment("dance", "20:30"),
    hours="10:00-22:30",
)
BRIEF = make_brief(
    DAY,
    groups=(
        group("All", "Ana Obi", "Bo Nowak", extra=30),
        group("Cousins", "Ana Obi", "Cy Keane"),
        group("Oars", "Di Adeyemi"),
    ),
    must_haves=(MustHave("Grandfather's watch", "getting_ready", key="w1"),),
    cares=(Care("grieves", "Bo Nowak", note="his brother"),),
    contacts=(Contact("Ana Obi", "sister", phone="07700 900109"),),
    anything_else="the uncles do not speak",
    places=(replace(BARN, address="Sallow Lane", not_allowed="No drones."),),
)


def summary(**changed) -> Agreed:
    """The summary of that day, or of the same with something else in its brief."""
    return agreed_of(plan_wedding(replace(BRIEF, **changed)), SPOKEN, (NOTE,))
