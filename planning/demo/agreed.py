"""What was settled at an invented meeting, and the summary that came of it."""

from __future__ import annotations

from intake.models import Wedding
from intake.read_through import read_steps
from planning.agreements import written
from planning.brief import load_brief
from planning.compute.day import plan_wedding
from planning.meeting_models import MeetingPoint

from .wedding import DemoAgreement


def agree(demo: DemoAgreement, wedding: Wedding) -> None:
    _note(demo, wedding)
    plan = plan_wedding(demo.before(load_brief(wedding)))
    agreement = wedding.agreements.create(
        number=1,
        **written(wedding, plan),
        shared_at=demo.shared_at,
        confirmed_by=demo.by,
        confirmed_at=demo.confirmed_at,
    )
    for i, text in enumerate(demo.points, 1):
        wedding.meeting_points.create(key=f"point-{i}", text=text)
    for i, text in enumerate(demo.objections, 1):
        wedding.meeting_points.create(
            key=f"said-{i}", text=text, by=MeetingPoint.By.COUPLE, agreement=agreement
        )


def _note(demo: DemoAgreement, wedding: Wedding) -> None:
    """Every answer that a note is about counts as settled."""
    said = {row.key: row for _s, parts in read_steps(wedding) for p in parts for row in p.rows}
    for key, text, for_couple in demo.notes:
        row = said[key]
        wedding.answer_notes.create(
            key=key,
            about=row.heading,
            text=text,
            for_couple=for_couple,
            settled=True,
            settled_as=row.mark,
        )
