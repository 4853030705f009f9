"""The day as a temporal network: does it hold, why not, how sure, and what to cut."""

from planning.compute.network.course import Course, build_course
from planning.compute.network.cuts import LATE, MOST_LATE, all_cuts, cut_plans, cuts_after
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
    "LATE",
    "MOST_LATE",
    "Answer",
    "Block",
    "Conflict",
    "Course",
    "CutPlan",
    "Hours",
    "Law",
    "Post",
    "Problem",
    "Repair",
    "Term",
    "all_cuts",
    "build_course",
    "cut_plans",
    "cuts_after",
    "solve",
    "suggest",
]
