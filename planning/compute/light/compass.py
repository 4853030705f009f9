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
    (0.35, N_("hardly any shadow")),
    (0.7, N_("shadows half as long as people are tall")),
    (0.9, N_("shadows a little shorter than people are tall")),
    (1.15, N_("shadows as long as people are tall")),
    (1.75, N_("shadows half as long again as people are tall")),
    (2.5, N_("shadows twice as long as people are tall")),
    (3.5, N_("shadows three times as long as people are tall")),
    (6.0, N_("shadows four to six times as long as people are tall")),
    (10.0, N_("shadows six to ten times as long as people are tall")),
)
ENDLESS = N_("shadows over ten times as long as people are tall")


def compass_word(bearing: float) -> str:
    """The nearest of the sixteen winds to a bearing in degrees from true north: a message id."""
    return WINDS[round(bearing % 360 / 22.5) % 16]


def shadow_words(ratio: float) -> str:
    """A shadow's length per height, in words: a message id."""
    return next((words for most, words in SHADOWS if ratio < most), ENDLESS)
