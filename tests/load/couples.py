"""Run by `manage.py shell` in the place under load: invented couples, and what each of them sends.

Writes a line for each into the file COUPLES: path of a step, cookies, body of a draft.
"""

import os
import re
from pathlib import Path
from urllib.parse import urlencode

from django.test import Client
from django.utils import timezone

from intake.links import link_path
from intake.models import Wedding
from planning.bench.many_weddings import add_weddings
from tests.page import Page

STEPS = ["two-of-you", "day", "places", "people", "groups"]


def draft_of(client, path):
    """The fields as the page would send them, with WORDS typed in its first box for text."""
    page = Page(client.get(path))
    fields = {name: values for name, values in page.fields.items() if name and name != "do"}
    box = next(name for name in fields if re.search(r"-(name|title|text|note)$", name))
    fields[box] = ["WORDS"]
    return urlencode(fields | {"do": ["draft"]}, doseq=True)


def line_of(wedding, number):
    client = Client(HTTP_HOST="127.0.0.1")
    client.get(link_path(wedding))
    path = f"/q/{wedding.public_id}/step/{STEPS[number % len(STEPS)]}"
    body = draft_of(client, path)
    cookies = "; ".join(f"{name}={morsel.value}" for name, morsel in client.cookies.items())
    return f"{path}\t{cookies}\t{body}\n"


def write():
    add_weddings(0, int(os.environ["HOW_MANY"]), timezone.localdate())
    weddings = Wedding.objects.filter(public_id__startswith="invented-")
    lines = [line_of(wedding, number) for number, wedding in enumerate(weddings)]
    Path(os.environ["COUPLES"]).write_text("".join(lines))
