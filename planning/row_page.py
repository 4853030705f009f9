"""A page that is one list of the studio's, with or without a form beside it, and one Keep."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from django import forms
from django.http import HttpRequest, QueryDict

from intake.answers import errors_of
from intake.models import Wedding
from intake.rows import RowSet, quiet, quiet_rows, rows_of, typed, with_one_more
from intake.steps import Part
from studio.in_turn import in_turn

FormOf = Callable[[QueryDict | None], forms.Form]


@dataclass
class RowPage:
    """`kept` once everything was; `unkept` while something typed is not."""

    part: Part
    rows: RowSet
    form: forms.Form | None = None
    errors: list[tuple[str, str]] = field(default_factory=list)
    kept: bool = False
    unkept: bool = False

    def context(self) -> dict[str, Any]:
        names = ("part", "rows", "form", "errors", "unkept")
        return {name: getattr(self, name) for name in names}


def row_page(
    request: HttpRequest,
    part: Part,
    wedding: Wedding | None = None,
    rows: type[RowSet] = RowSet,
    form_of: FormOf | None = None,
) -> RowPage:
    """The page as it is asked for: shown, with a row more, refused, or kept."""
    data = typed(request.POST, [part.prefix]) if request.method == "POST" else None
    if data is not None and data.get("do", "save") == "save":
        return _keep(part, wedding, rows, form_of, data)
    if data is not None and data["do"] == f"add-{part.prefix}":
        data = with_one_more(data, part.prefix)
    page = RowPage(part, rows_of(part, wedding, data, rows), form_of and form_of(data))
    quiet_rows(page.rows)
    if page.form is not None and data is not None:
        quiet(page.form)
    page.unkept = data is not None
    return page


@in_turn()  # what another page keeps meanwhile is told, not undone
def _keep(
    part: Part,
    wedding: Wedding | None,
    rows: type[RowSet],
    form_of: FormOf | None,
    data: QueryDict,
) -> RowPage:
    page = RowPage(part, rows_of(part, wedding, data, rows), form_of and form_of(data))
    page.errors = [*errors_of(page.rows, str(part.one))]
    page.errors += errors_of(page.form) if page.form else []
    if not page.errors:
        page.rows.save()
        if page.form:
            page.form.save()
    page.kept, page.unkept = not page.errors, bool(page.errors)
    return page
