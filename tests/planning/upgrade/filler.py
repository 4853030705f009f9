"""Rows in every table of any point in the migrations, made by the kinds of their fields.

Row i of a table refers to row i of others, so that each of the three weddings has its own of
everything: the first in middling values, the second as long and as high as may be, the third with
as little as may be. All of it is invented; a field of a kind that nobody has thought of fails here.
"""

import uuid
from datetime import UTC, date, datetime, time, timedelta
from decimal import Decimal
from graphlib import TopologicalSorter

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

ROWS = 3
MIDDLING, MOST, LEAST = range(ROWS)
WEDDINGS = ("thora-lukasz", "wanjiru-odon", "rut-imre")
OWN_KIND = "own-0a1b2c3d4e5f"  # as tests/test_access.py asks for it
TEXT = "Þóra’s Oma, 84, “Tűzvirág”, 花 & <b> "
MORNING = datetime(2027, 6, 12, 9, 30, tzinfo=UTC)
# What a field may hold where its kind does not say it: of each row, by field or by model and field.
MEANT = {
    "zone": ("Europe/Lisbon", "Pacific/Auckland", "Europe/London"),
    "language": ("de", "pl", "en-gb"),
    "email": ("a@studio.example", f"{'b' * 60}@studio.example", ""),
    "countries": (["PT"], ["NZ", "DE"], []),
    "intake.Wedding.public_id": WEDDINGS,
    "intake.Wedding.not_asked": (["step.pictures"], ["step.groups", "step.care"], []),
    "intake.Place.uses": (["ceremony"], ["ceremony", "meal"], []),
    "intake.StepState.slug": ("care", "groups", "people"),
    "intake.StepState.draft": (
        {"wedding-anything_else": ["typed by an earlier version"]},
        {"sheets": [{"key": "a1", "typed": {"do": ["draft"]}, "at": MORNING.isoformat()}]},
        None,
    ),
    "intake.Answer.value": ("Warm, slow", "x" * 300, ""),
    "intake.Answer.kind": ("short", "short", "short"),
    "intake.Question.kind": ("short", "short", "short"),
    "intake.Question.step": ("more", "care", "more"),
    "planning.Decisions.style": ("one_place", OWN_KIND, "one_place"),
    "planning.Decisions.hand_order": (["key-0"], ["key-1", "gone"], []),
    "planning.DayDecision.order": (["key-0"], ["key-1", "gone"], []),
    "planning.DayDecision.held": ([["09:00", "10:00", "Vows"]], [["9", "10", TEXT]], []),
    "planning.GivenEntry.starts": ("2027-06-12T09:30:00+00:00", "2027-07-12", "2027-08-11"),
    "planning.GivenEntry.ends": ("2027-06-12T10:30:00+00:00", "2027-07-13", "2027-08-12"),
    "planning.PlaceSpot.skyline": ([[240, 2], [300, 4.5]], [[0, 89]], []),
    "planning.KindOfDay.key": (OWN_KIND, "own-1a1b2c3d4e5f", "own-2a1b2c3d4e5f"),
    "planning.KindBlock.kind": ("ceremony", "meal", "portraits"),
    "planning.BlockDecision.kind": ("", "", ""),
    "planning.KitItem.key": ("zoom", "body", "card"),
    "planning.KitItem.kind": ("lens", "body", "card"),
    # With the comma that 0019 takes out.
    "planning.KitItem.card_form": ("SD, fast", "CF,  B", ""),
    "planning.KitItem.power": ("AA, four", "L,1", ""),
    "studio.Studio.insurance": (["liability"], [], None),
    "auth.User.password": ("!none", "!of", "!these"),
}


def fill(apps, put):
    """Three rows in every table; `put(folder, i)` keeps a picture and gives its fields."""
    rows = {}
    for model in in_order(apps):
        rows[model] = [make(model, i, rows, put) for i in range(ROWS)]


def in_order(apps):
    """Every table, after those that it refers to."""
    every = [m for m in apps.get_models(include_auto_created=True) if not m._meta.proxy]
    refers = {m: {f.related_model for f in m._meta.local_fields if f.is_relation} for m in every}
    return list(TopologicalSorter(refers).static_order())


def make(model, i, rows, put):
    fields = [f for f in model._meta.local_concrete_fields if not isinstance(f, models.AutoField)]
    values = {field.name: value_of(field, i, rows) for field in fields}
    if {"file", "small", "digest"} <= values.keys():
        values |= put(WEDDINGS[i], i)
    return model._base_manager.create(**values)


def value_of(field, i, rows):
    label = f"{field.model._meta.label}.{field.name}"
    if label in MEANT:
        return MEANT[label][i]
    if i == LEAST and (field.null or field.has_default()) and not field.unique:
        return None if field.null else field.get_default()
    if field.name in MEANT:
        return MEANT[field.name][i]
    if i == LEAST and field.blank and field.empty_strings_allowed and not field.is_relation:
        return ""
    if field.is_relation:
        return rows[field.related_model][i]
    if field.choices:
        values = [value for value, _label in field.flatchoices if value != ""]
        return values[i % len(values)]
    return of_its_kind(field, i)


def of_its_kind(field, i):
    for kind, make_one in KINDS:
        if isinstance(field, kind):
            return make_one(field, i)
    raise NotImplementedError(f"{field}: say in filler.py what such a field may hold")


def slug(field, i):
    if field.name == "key":
        return f"key-of-{WEDDINGS[i]}"[: field.max_length]
    return f"{field.name}-{i}"[: field.max_length]


def text(field, i):
    if field.unique or field.name in {"codename", "model", "session_key"}:
        return f"{field.name}{i}"
    words = f"{field.name} {i} {TEXT}"
    if i == MOST:
        words *= (field.max_length or 300) // len(words) + 1
    return words[: field.max_length or 300].strip()


def bounds(field, default_most):
    least = [v.limit_value for v in field.validators if isinstance(v, MinValueValidator)]
    most = [v.limit_value for v in field.validators if isinstance(v, MaxValueValidator)]
    # The narrowest: Django adds what the database can hold.
    return max(least, default=0), min([*most, default_most])


def number(field, i):
    least, most = bounds(field, 1000)
    return (least + (most - least) // 3, most, least)[i]


def fraction(field, i):
    least, most = bounds(field, 1000)
    return (least + (most - least) / 3, float(most), float(least))[i]


def decimal(field, i):
    highest = Decimal(10) ** (field.max_digits - field.decimal_places) - 1
    return round(Decimal(number_between(*bounds(field, highest), i)), field.decimal_places)


def number_between(least, most, i):
    least, most = Decimal(str(least)), Decimal(str(most))
    return (least + (most - least) / 3, most, least)[i]


KINDS = (
    (models.BooleanField, lambda field, i: i != LEAST),
    (models.SlugField, slug),
    (models.EmailField, lambda field, i: MEANT["email"][i]),
    ((models.CharField, models.TextField), text),
    (models.DecimalField, decimal),
    (models.FloatField, fraction),
    (models.IntegerField, number),
    (models.DateTimeField, lambda field, i: MORNING + timedelta(days=30 * i, microseconds=7)),
    (models.DateField, lambda field, i: date(2027, 6, 12) + timedelta(days=30 * i)),
    (models.TimeField, lambda field, i: time(9 + 4 * i, 30)),
    (models.UUIDField, lambda field, i: uuid.UUID(int=i + 1)),
    (models.GenericIPAddressField, lambda field, i: f"127.0.0.{i + 1}"),
)
