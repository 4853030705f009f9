from dataclasses import replace
from datetime import date

import pytest
from django.apps import apps

from intake.answers import Answers, draft_data
from intake.models import Group, Row, Wedding
from intake.steps import BY_SLUG, STEPS
from planning.agreements import standing
from planning.brief import load_brief
from planning.demo.load import is_strange, load_season
from planning.demo.season import PUBLIC_IDS, season
from planning.demo.wedding import EVERY_STEP
from planning.models import BlockDecision, Decisions, Drive, Hours, PlaceSpot
from studio.models import Studio

TODAY = date(2027, 1, 20)
pytestmark = pytest.mark.django_db


ROWS = [model for model in apps.get_models() if issubclass(model, Row)]


def counted():
    models = [*ROWS, Wedding, BlockDecision, Decisions, Drive, Hours, PlaceSpot, Studio]
    return {model.__name__: list(model.objects.order_by("pk").values()) for model in models}


def bare(brief):
    """Without what the database adds: labels, keys, an order of drives."""
    return replace(
        brief,
        legs=frozenset(brief.legs),
        must_haves=tuple(replace(m, says="", key="") for m in brief.must_haves),
        cares=tuple(replace(c, says="") for c in brief.cares),
    )


def test_what_is_read_back_is_what_was_invented():
    load_season(TODAY)
    for demo in season(TODAY):
        wedding = Wedding.objects.get(public_id=demo.brief.wedding)
        assert bare(replace(load_brief(wedding), kit=())) == bare(demo.brief)  # the studio's own
        assert wedding.sent_at == demo.sent_at


def test_every_row_passes_the_checks_of_the_models():
    for wedding in load_season(TODAY):
        wedding.full_clean()
        for model in ROWS:
            for row in model.objects.filter(wedding=wedding):
                row.full_clean()


def test_loading_twice_changes_nothing_even_on_another_day():
    load_season(TODAY)
    first = counted()
    load_season(date(2027, 5, 2))
    assert counted() == first


def test_what_somebody_changed_or_took_out_stays_so():
    load_season(TODAY)
    Wedding.objects.filter(public_id="demo-orchard-barn").update(matters="Only the dog.")
    Group.objects.filter(wedding__public_id="demo-orchard-barn", key="group-1").delete()
    load_season(TODAY)
    again = Wedding.objects.get(public_id="demo-orchard-barn")
    assert again.matters == "Only the dog."
    assert not again.groups.filter(key="group-1").exists()


def test_a_wedding_that_was_erased_whole_is_made_again():
    load_season(TODAY)
    Wedding.objects.filter(public_id="demo-town-hall").delete()
    load_season(TODAY)
    assert set(Wedding.objects.values_list("public_id", flat=True)) == set(PUBLIC_IDS)


def test_a_studio_that_is_there_keeps_its_name():
    Studio.objects.create(name="Our own studio")
    load_season(TODAY)
    assert [studio.name for studio in Studio.objects.all()] == ["Our own studio"]


def test_own_weddings_are_strange_only_where_the_demo_never_was():
    assert not is_strange()
    own = Wedding.objects.create()
    assert is_strange()
    own.delete()
    load_season(TODAY)
    Wedding.objects.create()
    assert not is_strange()


def test_the_steps_of_the_season_are_the_steps_of_the_questionnaire():
    assert {step.slug for step in STEPS if not step.optional} == EVERY_STEP


def test_a_draft_shows_what_was_typed():
    load_season(TODAY)
    states = [s for w in Wedding.objects.all() for s in w.steps.exclude(draft=None)]
    assert states
    for state in states:
        answers = Answers(BY_SLUG[state.slug], state.wedding, draft_data(state.draft)).quiet()
        page = "".join(str(form) for _, form in answers.parts)
        assert "Eilidh Abernethy" in page
        assert "07700 9002" in page


def test_the_couples_own_pages_accept_every_saved_step_as_it_stands():
    """What the demo says was kept could have been kept: the forms raise nothing against it."""
    load_season(TODAY)
    for wedding in Wedding.objects.all():
        for slug in wedding.steps.filter(draft=None).values_list("slug", flat=True):
            shown = Answers(BY_SLUG[slug], wedding)
            posted = Answers(BY_SLUG[slug], wedding, draft_data(as_posted(shown)))
            assert posted.is_valid(), (wedding.public_id, slug, list(posted.errors()))


def as_posted(answers):
    """The step's page as a browser would send it back untouched."""
    typed = {}
    for part, form in answers.parts:
        forms = [form.management_form, *form.forms] if part.rows else [form]
        for one in forms:
            for field in one:
                value = field.value()
                if value is None or value is False:
                    continue
                many = value if isinstance(value, list) else [value]
                typed[field.html_name] = [str(each) for each in many]
    return typed


def test_one_wedding_has_agreed_and_changed_since_another_was_asked():
    weddings = {wedding.public_id: wedding for wedding in load_season(TODAY)}
    winter = standing(weddings["demo-winter-hall"])
    assert winter.confirmed == winter.shared
    assert not winter.broken
    assert {"wet_plan", "time", "group"} <= {change.what for change in winter.since_confirmed}
    two_days = standing(weddings["demo-two-days"])
    assert two_days.waits
    assert two_days.confirmed is None
    assert not two_days.since_shared
    assert weddings["demo-two-days"].meeting_points.filter(by="couple").count() == 1


@pytest.mark.parametrize("today", [date(2026, 11, 26), date(2027, 2, 28), date(2027, 12, 20)])
def test_an_agreement_follows_the_answers_and_lies_behind_today(today):
    for demo in season(today):
        if demo.agreement:
            times = [demo.sent_at, demo.agreement.shared_at, demo.agreement.confirmed_at]
            known = [time for time in times if time]
            assert known == sorted(known)
            assert known[-1].date() < today
