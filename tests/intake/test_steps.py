"""Every step of the questionnaire, one after another: it works, refuses, forgives and remembers."""

import json

import pytest
from django.core.serializers import serialize
from django.db import transaction
from django.test import Client
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from intake import models
from intake.forms import MANY_PEOPLE
from intake.links import link_path
from intake.steps import BY_SLUG, STEPS
from tests.page import Page, fields, said

SLUGS = [step.slug for step in STEPS if step.slug != "pictures"]  # test_picture_views.py
each_step = pytest.mark.parametrize("slug", SLUGS)
ONE_ROW = {
    "two-of-you": {"partners-0-name": "Þóra Sigurðardóttir", "partners-0-phone": "07700 900111"},
    "day": {"days-0-date": "12 June 2027", "moments-0-at": "2.30 pm"},
    "places": {"places-0-name": "Mäkelä’s Mill", "places-0-uses": ["ceremony"]},
    "people": {"helpers-0-name": "Šimon Dvořák", "helpers-0-phone": "+420 (0) 123-456"},
    "groups": {"groups-0-title": "Parents", "groups-0-people": "Jarmila\nBohumil"},
    "photographs": {"musthaves-0-text": "The watch on my wrist"},
    "care": {"carenotes-0-person": "Oma", "carenotes-0-kind": "seat"},
    "sharing": {"sharing-online": "ask", "sharing-sharing_note": "Not before we told Oma."},
}
ENDINGS = ("name", "title", "text", "person", "note")
ROWS = (
    models.Partner,
    models.Day,
    models.Place,
    models.Moment,
    models.Contact,
    models.Group,
    models.MustHave,
    models.CareNote,
    models.Answer,
)


def address(slug):
    return f"/q/thora-lukasz/step/{slug}"


def everything(*besides):
    """All that a couple has said, as text."""
    rows = [serialize("json", model.objects.order_by("pk")) for model in (*ROWS, *besides)]
    texts = ("matters", "anything_else", "online", "children", "gallery", "supplier_use")
    weddings = models.Wedding.objects.values_list(*texts, "sharing_note")
    return json.dumps([*rows, list(weddings)])


def test_there_is_a_row_to_try_for_every_step():
    assert list(ONE_ROW) == SLUGS


@each_step
def test_a_step_is_kept_and_shown_again(wedding, couple, slug):
    before = everything()
    response = couple.post(address(slug), fields(couple, address(slug)) | ONE_ROW[slug])
    assert response.status_code == 302
    assert response["Location"] == "/q/thora-lukasz/"
    assert everything() != before
    assert f"Kept: {BY_SLUG[slug].title}" in said(couple.get("/q/thora-lukasz/"))
    again = fields(couple, address(slug))
    for name, value in ONE_ROW[slug].items():
        if name not in ("days-0-date", "moments-0-at"):  # said back as the box wants them
            value = value if isinstance(value, list) else [value.replace("\n", "\r\n")]
            assert again[name] == value


@each_step
def test_a_step_opens_to_nobody_without_the_link(wedding, slug):
    for response in (Client().get(address(slug)), Client().post(address(slug), ONE_ROW[slug])):
        assert response.status_code == 404
        assert "This link does not open anything" in said(response)
    assert not models.StepState.objects.exists()


@each_step
def test_a_step_may_be_kept_empty(wedding, couple, slug):
    response = couple.post(address(slug), fields(couple, address(slug)))
    assert response.status_code == 302
    assert models.StepState.objects.get(slug=slug).saved_at


@each_step
def test_a_text_that_is_too_long_is_told_in_figures_and_stays(wedding, couple, slug):
    before, long = everything(), "ż" * 100_000
    page = fields(couple, address(slug)) | ONE_ROW[slug]
    texts = [name for name in ONE_ROW[slug] if name.endswith(ENDINGS)]
    name = texts[0] if texts else "days-0-title"
    response = couple.post(address(slug), page | {name: long})
    assert response.status_code == 200
    assert "it has 100000" in said(response)
    assert Page(response).fields[name] == [long]
    assert everything() == before
    assert fields(couple, address(slug))[name] == [long]  # and on the next visit


@each_step
def test_a_step_left_half_way_is_there_on_another_phone(wedding, couple, slug):
    part = next(part for part in BY_SLUG[slug].parts if part.add or not part.rows)
    data = fields(couple, address(slug)) | ONE_ROW[slug]
    if part.rows:
        assert couple.post(address(slug), data | {"do": f"add-{part.prefix}"}).status_code == 302
    else:  # nothing to add here: an error keeps it back
        data |= {"partners-1-name": "", "sharing-gallery": "the whole town"}
        assert couple.post(address(slug), data).status_code == 200
    phone = Client()
    phone.get(link_path(wedding))
    assert "typed on another phone or computer" in said(phone.get(address(slug)))
    for name, value in ONE_ROW[slug].items():
        typed = value if isinstance(value, list) else [value.replace("\n", "\r\n")]
        assert fields(phone, address(slug))[name] == typed


@each_step
def test_the_photographer_settles_a_step_and_comes_back_to_answers(photographer, wedding, slug):
    data = fields(photographer, address(slug)) | ONE_ROW[slug]
    response = photographer.post(f"{address(slug)}?from=answers", data)
    assert response["Location"] == "/w/thora-lukasz/answers"


def test_a_change_from_the_read_through_goes_back_there_and_nowhere_else(wedding, couple):
    for where, back in (
        ("read-through", "/q/thora-lukasz/read-through"),
        ("https://elsewhere.example/", "/q/thora-lukasz/"),
        ("//elsewhere.example", "/q/thora-lukasz/"),
    ):
        response = couple.post(f"{address('care')}?from={where}", {})
        assert response["Location"] == back


@pytest.mark.parametrize("date", ["2027-06-31", "31 June 2027", "12/13/2027", "soon", "0000-00-00"])
def test_a_date_that_does_not_exist_is_told_and_stays(wedding, couple, date):
    page = fields(couple, address("day")) | {"days-0-date": date, "moments-0-at": "14:00"}
    response = couple.post(address("day"), page)
    assert "Enter a date that exists, like 12 June 2027." in said(response)
    assert "#id_days-0-date" in Page(response).links
    assert Page(response).fields["days-0-date"] == [date]
    assert str(wedding.days.get().date) == "2027-06-12"
    assert not wedding.moments.exists()


@pytest.mark.parametrize("year", ["0001", "0207", "1069", "2269", "9999"])
def test_a_year_that_is_a_slip_is_told(wedding, couple, year):
    page = fields(couple, address("day")) | {"days-0-date": f"{year}-06-12"}
    assert f"Look at the year: {int(year)}." in said(couple.post(address("day"), page))


@pytest.mark.parametrize(
    ("typed", "date"),
    [
        ("2027-09-13", "2027-09-13"),
        ("13 September 2027", "2027-09-13"),
        ("13 sep 2027", "2027-09-13"),
        ("Monday 13 September 2027", "2027-09-13"),
        ("13/9/2027", "2027-09-13"),
        ("13.09.2027", "2027-09-13"),
        ("29 February 2028", "2028-02-29"),
    ],
)
def test_dates_are_read_as_people_write_them(wedding, couple, typed, date):
    couple.post(address("day"), fields(couple, address("day")) | {"days-0-date": typed})
    assert str(wedding.days.get().date) == date


@pytest.mark.parametrize(
    ("typed", "at"),
    [
        ("14:30", "14:30:00"),
        ("14.30", "14:30:00"),
        ("2.30pm", "14:30:00"),
        ("2:30 PM", "14:30:00"),
        ("2:30pm", "14:30:00"),
        ("2 pm", "14:00:00"),
        ("0:15", "00:15:00"),
    ],
)
def test_times_are_read_as_people_write_them(wedding, couple, typed, at):
    couple.post(address("day"), fields(couple, address("day")) | {"moments-0-at": typed})
    assert str(wedding.moments.get().at) == at


@pytest.mark.parametrize("typed", ["25:00", "half two", "24:00", "-1:00", "12:60"])
def test_a_time_that_does_not_exist_is_told_and_stays(wedding, couple, typed):
    page = fields(couple, address("day")) | {"moments-0-at": typed}
    response = couple.post(address("day"), page)
    assert Page(response).words.count("Enter a time like 14:30.") == 2
    assert Page(response).fields["moments-0-at"] == [typed]


def test_a_time_and_not_known_yet_contradict(wedding, couple):
    page = fields(couple, address("day")) | {"moments-0-at": "14:30", "moments-0-unknown": "on"}
    assert "Take the tick out, or take the time out." in said(couple.post(address("day"), page))
    assert couple.post(address("day"), page | {"moments-0-at": ""}).status_code == 302
    assert wedding.moments.get().unknown


def test_three_hundred_names_in_a_group_are_fine(wedding, couple):
    names = "\n".join(f"Guest {number} Žáček" for number in range(300))
    page = fields(couple, address("groups")) | {"groups-0-title": "All", "groups-0-people": names}
    assert couple.post(address("groups"), page).status_code == 302
    assert wedding.groups.get().people == names


def test_more_names_than_a_photograph_holds_are_counted_and_stay(wedding, couple):
    names = "\r\n".join(f"Guest {number}" for number in range(MANY_PEOPLE + 1))
    page = fields(couple, address("groups")) | {"groups-0-title": "All", "groups-0-people": names}
    response = couple.post(address("groups"), page)
    assert "401 names are more than one photograph holds" in said(response)
    assert Page(response).fields["groups-0-people"] == [names]


@pytest.mark.parametrize("people", ["", "   \n ,\n- ", "•\n–"])
def test_a_group_of_nobody_is_told(wedding, couple, people):
    page = fields(couple, address("groups")) | {"groups-0-title": "All", "groups-0-people": people}
    assert "Enter who is in it, or how many people." in said(couple.post(address("groups"), page))
    assert couple.post(address("groups"), page | {"groups-0-extra": "80"}).status_code == 302
    assert wedding.groups.get().extra == 80


@pytest.mark.parametrize("extra", ["-1", "401", "eighty", "9" * 5000, "1e9", "2.5"])
def test_a_number_that_is_none_is_told(wedding, couple, extra):
    page = fields(couple, address("groups")) | ONE_ROW["groups"] | {"groups-0-extra": extra}
    response = couple.post(address("groups"), page)
    assert "enter a number from 0 to 400" in said(response)
    assert Page(response).fields["groups-0-extra"] == [extra]


def test_an_email_that_is_none_is_told(wedding, couple):
    page = fields(couple, address("two-of-you")) | {"partners-0-email": "thora at example"}
    response = couple.post(address("two-of-you"), page)
    assert "Enter an email address like name@example.org." in said(response)


def test_a_choice_that_is_none_is_told(wedding, couple):
    for slug, more in (
        ("groups", {"groups-0-wish": "maybe"}),
        ("day", {"moments-0-kind": "brunch", "moments-0-at": "14:00"}),
        ("places", {"places-0-uses": ["ceremony", "brunch"]}),
        ("people", {"helpers-0-side": "third"}),
    ):
        page = fields(couple, address(slug)) | ONE_ROW[slug] | more
        assert "choose one that is in the list" in said(couple.post(address(slug), page))


def test_a_request_too_large_to_read_is_told_calmly(wedding, couple):
    page = fields(couple, address("groups")) | {"groups-0-people": "x" * 3_000_000}
    for data in (page, {f"x{n}": "" for n in range(20_001)}):
        response = couple.post(address("groups"), data)
        assert response.status_code in (400, 413)
        assert "What you kept before is safe" in said(response)


ODD = ["", "on", "2027-06-31", "14:00", "ceremony", "must", "9" * 400, "-1", "1e400", "nan", "%s"]
ODDER = ["{{7*7}}", "<script>", "'; --", "\0", "\r\n", "\u202e", "٣", "a@b.example", "add-groups"]
TEXT = st.one_of(st.text(max_size=40), st.sampled_from(ODD + ODDER))


@each_step
@settings(
    max_examples=10,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(data=st.data())
def test_any_text_in_any_field_is_kept_whole_or_not_at_all(wedding, couple, other, slug, data):
    with transaction.atomic():
        page = fields(couple, address(slug))
        names = st.lists(st.sampled_from([*page, "do"]), max_size=8, unique=True)
        try_to_keep(couple, slug, page | {n: data.draw(TEXT, label=n) for n in data.draw(names)})
        assert wedding.partners.count() == 2
        assert [group.title for group in other.groups.all()] == ["Heron family"]
        transaction.set_rollback(True)


def try_to_keep(couple, slug, page):
    before = everything()
    response = couple.post(address(slug), page)
    assert response.status_code in (200, 302)
    if response.status_code == 200:
        assert everything() == before
        assert "mending" in said(response)
        assert models.StepState.objects.get(slug=slug).draft
    elif not str(page.get("do", "")).startswith("add-"):
        assert models.StepState.objects.get(slug=slug).draft is None
    for again in (address(slug), "/q/thora-lukasz/", "/q/thora-lukasz/read-through"):
        assert couple.get(again).status_code == 200


@each_step
def test_what_is_to_be_chosen_says_so_in_words(wedding, couple, slug):
    assert "-----" not in couple.get(address(slug)).content.decode()
