"""An answer as plain lines for a terminal."""

from __future__ import annotations

from planning.compute.order.evaluate import MILLION, clock, in_order
from planning.compute.order.rounding import more_shown, shown
from planning.compute.order.values import Answer, Measure, Problem

DIGITS = 1
# Faults of rules that this order does not keep.
NOT_KEPT = {"circle", "too_soon", "set_aside", "largest_first", "neighbours"}


def verdict(problem: Problem, answer: Answer) -> str:
    """What is known of the order, and under which rules."""
    best = f"best order{under(problem, answer)}"
    if answer.proven:
        return f"proven {best}"
    if answer.gap is None:
        return f"not compared with the {best} yet"
    return f"within {100 * answer.gap:.1f} % of the {best}"


def under(problem: Problem, answer: Answer) -> str:
    if not problem.rules and not problem.largest_first:
        return ""
    if any(fault.code in NOT_KEPT for fault in answer.faults):
        return " that keeps as many of your rules as it can"
    return " that keeps your rules"


def against(answer: Answer, other: Measure) -> str:
    """Another order's waiting, and how much more that is."""
    waiting = shown(other.waiting_minutes, DIGITS)
    more = more_shown(other.waiting_minutes, answer.measure.waiting_minutes, DIGITS)
    told = f"{waiting} ({abs(more)} {'fewer' if more < 0 else 'more'}"
    if answer.proven and other.cost < answer.measure.cost:
        told += ", against your rules"
    return told + ")"


def tell(problem: Problem, answer: Answer) -> str:
    """The order with its minutes, what it costs against other orders, and what cannot be kept."""
    photographs = in_order(problem, answer.order)
    lines = []
    for number, (photograph, (start, _)) in enumerate(
        zip(photographs, clock(photographs), strict=True), 1
    ):
        lines.append(f"{number:3}. {start / MILLION:6.1f} min  {photograph.name}")
    measured = answer.measure
    lines.append(
        f"{shown(measured.waiting_minutes, DIGITS)} guest-minutes of waiting, "
        f"{measured.walks} walks: {verdict(problem, answer)}"
    )
    lines.append(
        f"as listed {against(answer, answer.as_listed)}, "
        f"largest first {against(answer, answer.largest_first)}"
    )
    return "\n".join([*lines, *(fault.text for fault in answer.faults)])
