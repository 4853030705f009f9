"""An answer as plain lines for a terminal."""

from __future__ import annotations

from planning.compute.order.evaluate import MILLION, clock, in_order
from planning.compute.order.values import Answer, Problem


def verdict(answer: Answer) -> str:
    if answer.proven:
        return "proven best"
    if answer.gap is None:
        return "not compared with the best yet"
    return f"within {100 * answer.gap:.1f} % of the best possible"


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
        f"{measured.waiting_minutes:.1f} guest-minutes of waiting, {measured.walks} walks: "
        f"{verdict(answer)}"
    )
    lines.append(
        f"as listed {answer.as_listed.waiting_minutes:.1f}, "
        f"largest first {answer.largest_first.waiting_minutes:.1f}"
    )
    return "\n".join([*lines, *(fault.text for fault in answer.faults)])
