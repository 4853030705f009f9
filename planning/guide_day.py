"""The wedding day itself, for a first time: the simple photograph first, then the other one."""

from __future__ import annotations

from django.utils.translation import gettext_lazy as _

from .guide_stage import Stage, point

MORNING = Stage(
    "morning",
    _("The morning"),
    _("From getting up to the first ring"),
    _("Be early. Half an hour in which nobody needs you is worth more than any lens."),
    (
        point(_("Eat, drink, look up the road, and leave when the paper says."), "day", _("Day")),
        point(
            _(
                "Photograph things first: the clothes, the shoes, the room. Nothing of it moves, "
                "your hands get warm, and people get used to you."
            )
        ),
        point(_("Then faces near a window, with the lights of the room switched off if you may.")),
        point(_("Ask before you come in, every time: somebody is always half dressed.")),
    ),
    (
        _(
            "Ask about allergies and medicine before you share food. Bags and cables go where no "
            "child and no heel finds them."
        ),
    ),
)
CEREMONY = Stage(
    "ceremony",
    _("The ceremony"),
    _("It happens once"),
    _(
        "For everything that happens once, take the simple photograph first: all of them in the "
        "frame, eyes open, sharp, not too dark. Then, if it lasts, the beautiful one."
    ),
    (
        point(
            _(
                "Find your place beforehand, ask whoever leads it, and stay there. Sound off, "
                "flash off unless they said yes."
            )
        ),
        point(
            _(
                "The simple ones: the room before anybody comes in; each one walking in; both "
                "faces during the words; rings; a kiss, wide; walking out; the people who cry."
            )
        ),
        point(_("Look up from the camera often: the best thing is behind you as often as not.")),
        point(
            _(
                "If you miss it, you miss it: the next moment is coming now. Nobody but you knows "
                "what you had in mind."
            )
        ),
    ),
    (
        _(
            "Never look at the sun through the viewfinder, least of all with a long lens: it can "
            "blind an eye for good."
        ),
        _("Walk no aisle backwards, climb on nothing, and mind candles, smoke and sparklers."),
    ),
)
AFTERNOON = Stage(
    "afternoon",
    _("Groups, the two of them, the room"),
    _("While the light is there"),
    _("Largest group first, so that most people are free soonest; then as the list says."),
    (
        point(
            _("Let the helpers call and you look. Say when it begins, and how long it takes."),
            "groups",
            _("Groups"),
        ),
        point(
            _(
                "Put faces in shade or with the sun behind them, count to three aloud, take four "
                "frames, look at every pair of eyes, go on."
            )
        ),
        point(
            _(
                "With the two of them: let them walk, let them talk, let them stand still. Three "
                "simple pictures in one good place are enough; then give them five minutes alone."
            )
        ),
        point(_("The room before the guests come in: one wide, one of the table, done.")),
        point(
            _("Running late? Look what to leave out, and ask the one person whose list it is."),
            "late",
            _("How late are we"),
        ),
    ),
    (
        _(
            "Seats and shade for whoever cannot stand long; water in heat. Children only with "
            "their parents, and well away from water, roads and edges."
        ),
        _("A drone flies only with a licence, leave of the place, and no people under it."),
    ),
)
EVENING = Stage(
    "party",
    _("The evening"),
    _("While you are tired and they are not"),
    _("Sit down when they sit down. Nobody looks well while eating."),
    (
        point(_("Eat something hot, drink two glasses of water, change batteries and cards.")),
        point(_("Keep used cards on you, in a pocket that shuts, never in the bag under a table.")),
        point(
            _(
                "Speeches: the one who speaks, then the one who is spoken of. A first dance: wide "
                "first, with the guests around it; then close."
            )
        ),
        point(
            _("Golden light lasts minutes: know when it comes, and ask for ten."),
            "light",
            _("Light"),
        ),
        point(
            _("Say goodbye to the couple and to whoever is in charge, and go when it is agreed.")
        ),
    ),
    (
        _(
            "Sparklers burn at a heat that sets cloth alight: arm’s length, a bucket of sand, "
            "sober adults."
        ),
        _("You are working: no alcohol, and a way home that does not need a tired driver."),
    ),
)
ON_THE_DAY = (MORNING, CEREMONY, AFTERNOON, EVENING)
