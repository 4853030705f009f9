"""A wedding in which every field that holds words holds a word of its own, found on any paper."""

import io
import re
from datetime import date, time

from django.apps import apps
from django.db import models
from django.utils import timezone
from pypdf import PdfReader
from pypdf.generic import TextStringObject

from intake.models import Wedding
from planning.agreements import written
from planning.brief import load_brief
from planning.compute.day import plan_wedding

APPS = {"intake", "planning", "studio"}
WORDS = (models.CharField, models.TextField, models.JSONField)


def fields_with_words():
    """("intake.partner", "name") for each field in which anybody could write anything."""
    return {
        (model._meta.label_lower, field.name)
        for model in apps.get_models()
        if model._meta.app_label in APPS
        for field in model._meta.concrete_fields
        if isinstance(field, WORDS) and not field.choices
    }


def mark(row, field):
    """One word for each row and field, in letters of our fonts: "Zqbak"."""
    number, letters = sorted(MARKED).index((row, field)), ""
    for _ in range(3):
        number, rest = divmod(number, 20)
        letters += "abcdeghijkmnoprstuvx"[rest]  # no letters that fonts join
    return f"Zq{letters}w"


MARKED: set[tuple[str, str]] = set()


class Marker:
    """Makes rows whose words are marks; `rows` says which fields of which row the table knows."""

    def __init__(self, rows):
        self.rows = rows
        MARKED.clear()
        MARKED.update((row, field) for row, (_m, fields) in rows.items() for field in fields)

    def words(self, row):
        model, fields = self.rows[row]
        kinds = apps.get_model(model)._meta
        return {name: _as(kinds.get_field(name), mark(row, name)) for name in fields}

    def make(self, row, **more):
        model = apps.get_model(self.rows[row][0])
        return model.objects.create(**self.words(row) | more)


def _as(field, word):
    if isinstance(field, models.EmailField):
        return f"{word.lower()}@example.org"
    if isinstance(field, models.FloatField):
        return FLOATS.setdefault(word, round(50.12345 + len(FLOATS) * 0.37, 5))
    return word


FLOATS: dict[str, float] = {}


def marked_wedding(rows) -> Wedding:
    """Everything a wedding can have, once at least; two of whatever one paper may have one of."""
    make = Marker(rows).make
    FLOATS.clear()
    studio = make("studio", zone="Europe/London")
    wedding = make("wedding", public_id="marked", online="ask", zone="Europe/London")
    for row in ("partner", "other partner"):
        make(row, wedding=wedding, key=row[:1])
    day = make("day", wedding=wedding, key="day", date=date(2027, 6, 12))
    day.hours = apps.get_model("planning.hours").objects.create(day=day, starts=time(8))
    make("held", day=day, held_at=timezone.now())
    places = {
        "here": make("place here", wedding=wedding, key="here", uses=["ceremony", "groups"]),
        "there": make("place there", wedding=wedding, key="there", uses=["meal", "party"]),
    }
    for name, place in places.items():
        make(f"spot {name}", place=place)
    _drives(wedding, places)
    _moments(make, wedding, day, places)
    for row, kind in CONTACTS.items():
        make(row, wedding=wedding, key=row.replace(" ", "-"), listed_as=kind, side="first")
    _photographs(make, wedding)
    _own_words(make, wedding)
    _settled(make, wedding)
    studio.save()
    return wedding


CONTACTS = {
    "helper": "helper",
    "other helper": "helper",
    "contact": "contact",
    "supplier": "supplier",
}


def _drives(wedding, places):
    drive = apps.get_model("planning.drive").objects.create
    here, there = places["here"], places["there"]
    for origin, destination in ((None, here), (here, there), (there, None)):
        drive(wedding=wedding, origin=origin, destination=destination, map_minutes=20)


def _moments(make, wedding, day, places):
    """The ceremony is here, the meal and the dance are there."""
    for row, kind, at, place in (
        ("moment here", "ceremony", time(13), "here"),
        ("moment there", "meal", time(17), "there"),
    ):
        make(row, wedding=wedding, day=day, key=kind, kind=kind, at=at, place=places[place])
    own = {"least": 20, "likely": 20, "most": 20, "who": "both", "place": places["here"]}
    make("block", day=day, key="own-block", kind="own", follows="ceremony", **own)
    decide = apps.get_model("planning.blockdecision").objects.create
    decide(day=day, key="ceremony", who="both")
    decide(day=day, key="day-groups", who="second")


def _photographs(make, wedding):
    group = make("group", wedding=wedding, key="g", wish="must")
    other = make("other group", wedding=wedding, key="h", wish="must")
    apps.get_model("planning.grouprule").objects.create(
        wedding=wedding, kind="before", one=group, other=other
    )
    make("rule", wedding=wedding, kind="free", position=2)
    make("spelling", wedding=wedding, is_same=False)
    make("wanted", wedding=wedding, key="m", kind="ceremony")
    make("care", wedding=wedding, key="c", kind="seat")
    size = {"width": 60, "height": 40, "file": "x/large.jpg", "small": "x/small.jpg"}
    make("picture", wedding=wedding, key="p", digest="p", **size)
    make("our picture", wedding=wedding, key="o", digest="o", **size)


def _own_words(make, wedding):
    question = make("question", wedding=wedding, kind="short", key="q")
    make("answer", wedding=wedding, question=question, kind="short")
    kind = make("kind of day", key="own-kind")
    make("block of a kind", kind_of_day=kind, kind="own", key="k")
    make("draft", wedding=wedding, slug="people")
    make("tick", wedding=wedding, key="t", state="done", at=timezone.now())
    make("line of the ready list", wedding=wedding, key="r")
    make("experience", on=date(2026, 1, 1))
    thing = make("thing of the kit", kind="body")
    apps.get_model("planning.bagline").objects.create(wedding=wedding, item=thing, count=1)
    make("policy", kind="liability", starts=date(2027, 1, 1), ends=date(2028, 1, 1))
    uid = "00000000-0000-4000-8000-000000000001"
    make("entry", uid=uid, wedding=wedding, changed_at=timezone.now(), cancelled=True)


def _settled(make, wedding):
    """Notes and points, of which the couple are to see every second one; shared and confirmed."""
    make("note", wedding=wedding, key="places.places.here")
    make("note for them", wedding=wedding, key="places.places.there", for_couple=True)
    make("point", wedding=wedding, key="a")
    make("point for them", wedding=wedding, key="b", for_couple=True, settled=True)
    apps.get_model("planning.decisions").objects.create(
        wedding=wedding, presence="called", visit_at=timezone.now()
    )
    text = written(wedding, plan_wedding(load_brief(wedding)))
    now = timezone.now()
    make("agreement", wedding=wedding, number=1, shared_at=now, confirmed_at=now, **text)


def everything_said(pdf):
    """All a file says to anybody: its text, and every string beside it (title, bookmarks, what
    drawings are called), without spaces and without capitals."""
    reader = PdfReader(io.BytesIO(pdf))
    said = [page.extract_text() for page in reader.pages]
    objects = (reader.get_object(n) for n in range(1, int(reader.trailer["/Size"])))
    said += [text for each in objects for text in _strings(each)]
    return re.sub(r"\s+", "", " ".join(said)).casefold()


def _strings(value):
    if isinstance(value, TextStringObject):
        yield str(value)
    elif isinstance(value, dict):
        yield from (text for each in value.values() for text in _strings(each))
    elif isinstance(value, list):
        yield from (text for each in value for text in _strings(each))
