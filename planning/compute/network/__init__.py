"""The day as a temporal network: does it hold, why not, how sure, and what to cut."""

from planning.compute.network.hours import Hours
from planning.compute.network.laws import Law
from planning.compute.network.solve import solve
from planning.compute.network.suggest import suggest
from planning.compute.network.values import (
    Answer,
    Block,
    Conflict,
    CutPlan,
    Post,
    Problem,
    Repair,
    Term,
)

__all__ = [
    "Answer",
    "Block",
    "Conflict",
    "CutPlan",
    "Hours",
    "Law",
    "Post",
    "Problem",
    "Repair",
    "Term",
    "solve",
    "suggest",
]
