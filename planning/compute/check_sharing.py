"""Checks of what may be done with the pictures: until somebody allows it, nothing is shown."""

from __future__ import annotations

from collections.abc import Iterator

from .planned import Finding, Plan
from .values import N_

SHOWN = {"yes", "ask"}


def online_sharing(plan: Plan) -> Iterator[Finding]:
    if "step.sharing" in plan.brief.not_asked:
        return
    answer = plan.brief.may("online")
    if not answer:
        message = N_("Nobody has said whether photographs may be shown online: show none.")
        yield Finding("online_sharing", "missing", message, step="sharing")
    elif answer == "undecided":
        message = N_(
            "They have not decided about showing photographs online: show none until then."
        )
        yield Finding("online_sharing", "look", message, step="sharing")


def children_shown(plan: Plan) -> Iterator[Finding]:
    """Photographs may be shown, and children were named for whom nobody has said so."""
    brief = plan.brief
    children = [care.person for care in brief.cares if care.kind == "child"]
    settled = brief.may("children") == "yes" or "wedding.children" in brief.not_asked
    if not children or settled or brief.may("online") not in SHOWN:
        return
    message = N_(
        "Photographs may be shown online, but nobody has said so for children (%(children)s): "
        "show none in which they can be recognised."
    )
    if brief.may("children") in {"no", "ask"}:
        message = N_(
            "Photographs may be shown online, but not those in which children can be recognised "
            "(%(children)s) unless their parents agree."
        )
    yield Finding("children_shown", "look", message, {"children": ", ".join(children)}, "sharing")
