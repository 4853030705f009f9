"""What the list of steps says of each step."""

import pytest
from django.utils import timezone

from intake.models import Contact, Moment, Place, StepState
from intake.progress import count_missing, progress

pytestmark = pytest.mark.django_db


def keep(wedding, slug, **more):
    StepState.objects.create(wedding=wedding, slug=slug, saved_at=timezone.now(), **more)


def mark(wedding, slug):
    return next(each for each in progress(wedding) if each.step.slug == slug)


def test_a_step_nobody_opened_is_not_started(wedding):
    asked = [each for each in progress(wedding) if not each.step.optional]
    assert {each.mark for each in asked} == {"not_started"}
    assert {each.says for each in asked} == {"not started"}


def test_an_optional_step_says_so_until_it_is_kept(wedding):
    assert (mark(wedding, "pictures").mark, mark(wedding, "pictures").says) == (
        "optional",
        "optional",
    )
    keep(wedding, "pictures")
    assert mark(wedding, "pictures").mark == "done"


def test_a_draft_is_begun_even_where_an_earlier_answer_was_kept(wedding):
    keep(wedding, "groups", draft={"groups-0-title": ["Parents"]})
    assert mark(wedding, "groups").mark == "draft"


@pytest.mark.parametrize("slug", ["groups", "photographs", "care"])
def test_a_step_that_may_be_empty_is_done_when_it_is_kept(wedding, slug):
    keep(wedding, slug)
    assert mark(wedding, slug).mark == "done"


def test_one_phone_number_is_enough(wedding):
    keep(wedding, "two-of-you")
    assert mark(wedding, "two-of-you").missing == ("A phone number of one of you",)
    assert mark(wedding, "two-of-you").says == "1 thing missing"
    wedding.partners.filter(name__startswith="Ł").update(phone="07700 900111")
    assert mark(wedding, "two-of-you").mark == "done"


def test_a_day_wants_a_date_and_the_time_of_the_ceremony(wedding):
    keep(wedding, "day")
    assert mark(wedding, "day").missing == ("The time of the ceremony",)
    moment = Moment.objects.create(wedding=wedding, kind="ceremony", at="14:00", unknown=True)
    assert mark(wedding, "day").missing
    moment.unknown = False
    moment.save()
    assert mark(wedding, "day").mark == "done"
    wedding.days.all().delete()
    assert mark(wedding, "day").missing == ("The date",)


def test_a_day_without_a_ceremony_wants_any_other_time(wedding):
    keep(wedding, "day")
    Moment.objects.create(wedding=wedding, kind="party", at="19:00", key="p")
    assert mark(wedding, "day").mark == "done"
    Moment.objects.create(wedding=wedding, kind="ceremony", unknown=True, key="c")
    assert mark(wedding, "day").missing == ("The time of the ceremony",)


def test_every_place_wants_somewhere_dry(wedding):
    keep(wedding, "places")
    assert mark(wedding, "places").missing == ("Where the ceremony is",)
    Place.objects.create(wedding=wedding, name="Mill", wet_plan="The loft", key="a")
    Place.objects.create(wedding=wedding, name="Žáček’s 50% Barn", key="b")
    assert mark(wedding, "places").missing == ("Žáček’s 50% Barn: where to go if it rains?",)


def test_somebody_must_know_faces_and_a_supplier_does_not(wedding):
    keep(wedding, "people")
    Contact.objects.create(wedding=wedding, listed_as="supplier", name="Flowers", key="s")
    assert mark(wedding, "people").mark == "missing"
    Contact.objects.create(wedding=wedding, listed_as="helper", name="Šimon", key="h")
    assert mark(wedding, "people").mark == "done"


def test_things_are_missing_whether_or_not_the_step_was_opened(wedding):
    assert count_missing(wedding) == 5
    wedding.partners.update(phone="07700 900111")
    assert count_missing(wedding) == 4
    wedding.online = "undecided"
    assert count_missing(wedding) == 3
