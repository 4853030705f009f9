"""Bearings and shadows in words."""

from __future__ import annotations

from planning.compute.values import N_

WINDS = (
    N_("north"),
    N_("north-north-east"),
    N_("north-east"),
    N_("east-north-east"),
    N_("east"),
    N_("east-south-east"),
    N_("south-east"),
    N_("south-south-east"),
    N_("south"),
    N_("south-south-west"),
    N_("south-west"),
    N_("west-south-west"),
    N_("west"),
    N_("west-north-west"),
    N_("north-west"),
    N_("north-north-west"),
)
# Upper limit of the shadow's length per height, and how it is said.
SHADOWS = (
    (0.35, N_("hardly any")),
    (0.7, N_("about half their height")),
    (0.9, N_("a little under their height")),
    (1.15, N_("about their height")),
    (1.75, N_("half as long again as their height")),
    (2.5, N_("about twice their height")),
    (3.5, N_("about three times their height")),
    (6.0, N_("four to six times their height")),
    (10.0, N_("six to ten times their height")),
)
ENDLESS = N_("over ten times their height")


def compass_word(bearing: float) -> str:
    """The nearest of the sixteen winds to a bearing in degrees from true north: a message id."""
    return WINDS[round(bearing % 360 / 22.5) % 16]


def shadow_words(ratio: float) -> str:
    """A shadow's length per height, as people would say it of theirs: a message id."""
    return next((words for most, words in SHADOWS if ratio < most), ENDLESS)
