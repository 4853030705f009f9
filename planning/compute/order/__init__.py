"""The order of the group photographs, exact or with an honest bound."""

from planning.compute.json_text import ProblemError
from planning.compute.order.evaluate import freed, largest_first, measure
from planning.compute.order.solve import solve
from planning.compute.order.values import (
    Answer,
    Apart,
    Before,
    Fault,
    First,
    Free,
    Freed,
    Last,
    Measure,
    Photograph,
    Problem,
    Rule,
)

__all__ = [
    "Answer",
    "Apart",
    "Before",
    "Fault",
    "First",
    "Free",
    "Freed",
    "Last",
    "Measure",
    "Photograph",
    "Problem",
    "ProblemError",
    "Rule",
    "freed",
    "largest_first",
    "measure",
    "solve",
]
