"""`manage.py daypack WEDDING --out F.pdf`: a wedding's day pack, or another paper, as a file."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from django.core.management.base import CommandError, CommandParser
from django.http import QueryDict

from planning.glyphs import undrawable_texts
from planning.management.find import find_wedding
from planning.management.one_line import OneLineCommand, one_line
from planning.management.out_file import write_out
from planning.paper.printing import CHOOSABLE, SIZES
from planning.paper.refusal import CANNOT, refusal
from planning.paper.sheets import BY_KEY
from planning.paper.subject import subject_of
from planning.paper_form import PrintForm
from planning.pdf import paper_pdf


class Command(OneLineCommand):
    help = "Write a wedding's day pack, or another of its papers, to a file (PDF)."

    def add_arguments(self, parser: CommandParser) -> None:
        parser.add_argument("wedding", metavar="WEDDING", help="the wedding's public id")
        parser.add_argument("--out", required=True, metavar="F.pdf", type=Path)
        parser.add_argument("--paper", default="day-pack", choices=list(BY_KEY))
        parser.add_argument(
            "--for", default="", metavar="KEY", dest="reader", help="whose, as in Papers"
        )
        parser.add_argument(
            "--parts", metavar="A,B", help=f"of the day pack: {', '.join(CHOOSABLE)}"
        )
        parser.add_argument("--size", default="a4", choices=list(SIZES))
        parser.add_argument("--grey", action="store_true", help="without colour")
        parser.add_argument("--json", action="store_true", help="print one JSON object")

    def handle(self, *, wedding: str, out: Path, **options: Any) -> None:
        form = _form(wedding, options)
        if not form.is_valid():
            said = [str(each) for every in form.errors.values() for each in every]
            raise CommandError(" ".join(said), returncode=2)
        try:
            pdf = paper_pdf(form.subject, form.sheet, form.reader, form.printing)
        except CANNOT as error:
            raise CommandError(refusal(error), returncode=2) from error
        write_out(out, pdf)
        for text in undrawable_texts(form.subject.brief):
            self.stderr.write(one_line(f"Our fonts cannot draw this as it is written: {text}"))
        report = json.dumps({"wedding": wedding, "out": str(out), "bytes": len(pdf)})
        self.stdout.write(report if options["json"] else one_line(f"{out}: {len(pdf)} bytes"))


def _form(wedding: str, options: dict[str, Any]) -> PrintForm:
    """The choices as the page's own form would send them."""
    chosen = QueryDict(mutable=True)
    chosen["size"] = options["size"]
    parts = options["parts"]
    named = CHOOSABLE if parts is None else [part.strip() for part in parts.split(",")]
    chosen.setlist("part", [part for part in named if part])
    if options["reader"]:
        chosen["for"] = options["reader"]
    if options["grey"]:
        chosen["grey"] = "1"
    subject = subject_of(find_wedding(wedding))
    return PrintForm(chosen, subject=subject, sheet=BY_KEY[options["paper"]])
