"""Rows of a list: added and removed with or without scripts, counted and keyed by anybody."""

import pytest
from django.http import QueryDict

from intake.forms import MomentForm, PlaceForm
from intake.models import Group, Moment, Partner
from intake.rows import MOST_ROWS, MOST_SENT, typed
from tests.intake.group import GROUPS, group, kept
from tests.page import Page, fields, said

DAY = "/q/thora-lukasz/step/day"
TWO = "/q/thora-lukasz/step/two-of-you"


def test_a_row_is_added_without_scripts_and_everything_typed_stays(couple, wedding):
    data = fields(couple, GROUPS) | group(0, "", "Nobody named the group") | {"do": "add-groups"}
    response = couple.post(GROUPS, data | {"groups-0-extra": "a few"}, follow=True)
    assert response.redirect_chain == [(f"{GROUPS}#row-groups-1", 302)]
    page = Page(response)
    assert page.fields["groups-0-people"] == ["Nobody named the group"]
    assert page.fields["groups-0-extra"] == ["a few"]
    assert page.fields["groups-1-title"] == [""]
    assert page.fields["groups-1-key"][0] not in ("", page.fields["groups-0-key"][0])
    assert "row-groups-1" in page.ids
    assert "mending" not in page.words  # nobody asked to keep it yet
    assert not Group.objects.exists()


def test_a_row_is_added_to_one_list_and_the_other_lists_stay_as_typed(couple, wedding):
    url = "/q/thora-lukasz/step/people"
    data = fields(couple, url) | {
        "helpers-0-name": "Šimon",
        "contacts-0-name": "Jarmila",
        "contacts-0-phone": "07700 900222",
        "suppliers-0-role": "Flowers",
        "do": "add-contacts",
    }
    page = Page(couple.post(url, data, follow=True)).fields
    assert page["helpers-0-name"] == ["Šimon"]
    assert page["suppliers-0-role"] == ["Flowers"]
    assert page["contacts-1-name"] == [""]
    assert "helpers-1-name" not in page


def test_rows_can_be_added_one_after_another_without_scripts(couple, wedding):
    page = fields(couple, GROUPS)
    for number in range(5):
        page |= {f"groups-{number}-title": f"Group {number}", f"groups-{number}-people": "Ada"}
        page = Page(couple.post(GROUPS, page | {"do": "add-groups"}, follow=True)).fields
    assert kept(couple.post(GROUPS, page))
    assert [g.title for g in wedding.groups.all()] == [f"Group {n}" for n in range(5)]


def test_a_row_is_removed_and_another_added_in_one_post(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra") | group(1, "Cousins", "Ada"))
    data = fields(couple, GROUPS) | {"groups-0-DELETE": "on"} | group(2, "Friends", "Bo")
    assert kept(couple.post(GROUPS, data))
    assert [g.title for g in wedding.groups.all()] == ["Cousins", "Friends"]


def test_a_row_ticked_for_removal_stays_ticked_when_another_row_is_added(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    data = fields(couple, GROUPS) | {"groups-0-DELETE": "on", "do": "add-groups"}
    assert Page(couple.post(GROUPS, data, follow=True)).fields["groups-0-DELETE"] == ["on"]
    assert Group.objects.exists()


def test_a_row_that_is_removed_is_not_checked(couple, wedding):
    data = fields(couple, GROUPS) | group(0, "", "", extra="x") | {"groups-0-DELETE": "on"}
    assert kept(couple.post(GROUPS, data))
    data = fields(couple, GROUPS) | group(0, "", "", extra="x") | {"groups-0-DELETE": "on"}
    response = couple.post(GROUPS, data | group(1, "Friends", ""))
    assert Page(response).words.count("Enter who is in it") == 2  # in the summary, by its field
    assert "number" not in Page(response).words.split("Enter who is in it")[0]


def test_rows_that_say_nothing_are_left_out(couple, wedding):
    page = fields(couple, GROUPS)
    for _ in range(3):
        page = Page(couple.post(GROUPS, page | {"do": "add-groups"}, follow=True)).fields
    assert kept(couple.post(GROUPS, page))
    assert not Group.objects.exists()


def test_the_first_lines_of_the_day_may_be_left_alone(couple, wedding):
    data = fields(couple, DAY)
    assert [data["moments-0-kind"], data["moments-1-kind"]] == [["ceremony"], ["meal"]]
    assert kept(couple.post(DAY, data | {"moments-0-at": "14:00"}))
    assert [str(m) for m in wedding.moments.all()] == ["Ceremony"]


def test_a_line_that_somebody_began_is_not_dropped_without_a_word(couple, wedding):
    data = fields(couple, DAY) | {"moments-0-at": "14:00", "moments-1-kind": "cake"}
    response = couple.post(DAY, data)
    assert response.status_code == 200
    assert "Enter the time, or tick “We do not know yet”" in said(response)
    assert "id_moments-1-at" in Page(response).ids


def test_a_line_begun_below_a_kept_one_is_not_dropped_either(couple, wedding):
    couple.post(DAY, fields(couple, DAY) | {"moments-0-at": "14:00"})
    page = Page(couple.post(DAY, fields(couple, DAY) | {"do": "add-moments"}, follow=True)).fields
    response = couple.post(DAY, page | {"moments-1-kind": "meal"})
    assert "Enter the time, or tick “We do not know yet”" in said(response)


@pytest.mark.parametrize(
    "counts",
    [
        {},
        {"groups-TOTAL_FORMS": "-5", "groups-INITIAL_FORMS": "-5"},
        {"groups-TOTAL_FORMS": "999999999999", "groups-INITIAL_FORMS": "0"},
        {"groups-TOTAL_FORMS": "9" * 5000},
        {"groups-TOTAL_FORMS": "many", "groups-INITIAL_FORMS": "ten"},
        {"groups-TOTAL_FORMS": "1", "groups-INITIAL_FORMS": "1"},
        {"groups-TOTAL_FORMS": ""},
        {"groups-TOTAL_FORMS": "\0", "groups-MAX_NUM_FORMS": "\0"},
    ],
)
@pytest.mark.parametrize("do", ["save", "add-groups"])
def test_wrong_counts_lose_no_row(couple, wedding, counts, do):
    rows = group(0, "Parents", "Þóra") | group(1, "Cousins", "Ada")
    response = couple.post(GROUPS, rows | counts | {"do": do})
    assert kept(response)
    if do == "save":
        assert [g.title for g in wedding.groups.all()] == ["Parents", "Cousins"]
    else:
        page = fields(couple, GROUPS)
        assert page["groups-1-title"] == ["Cousins"]
        assert page["groups-2-title"] == [""]


def test_a_key_sent_twice_stands_for_two_rows(couple, wedding):
    rows = group(0, "Parents", "Þóra", key="same") | group(1, "Cousins", "Ada", key="same")
    for _ in range(2):
        assert kept(couple.post(GROUPS, rows))
        assert [g.title for g in wedding.groups.all()] == ["Parents", "Cousins"]


def test_a_forged_key_makes_a_row_of_ones_own(couple, wedding):
    for key in ("../x", "ż", "k" * 41, "\0", "a b", ""):
        assert kept(couple.post(GROUPS, group(0, f"Row of {key!r}", "Ada") | {"groups-0-key": key}))
    assert wedding.groups.count() == 6


def test_a_key_of_another_wedding_never_touches_its_row(couple, wedding, other):
    theirs = group(0, "Mine now", "Mallory", key="theirgroup")
    for more in ({}, {"groups-0-was": "0123456789abcdef"}, {"groups-0-DELETE": "on"}):
        couple.post(GROUPS, theirs | more)
        (untouched,) = other.groups.all()
        assert (untouched.title, untouched.people) == ("Heron family", "Ödön")
    assert [day.key for day in other.days.all()] == ["theirday"]


@pytest.mark.parametrize("field", ["day", "place"])
def test_a_day_or_place_of_another_couple_cannot_be_chosen(couple, wedding, other, field):
    wedding.days.create(date="2027-06-13")
    wedding.places.create(name="Mill")
    theirs = {"day": other.days.get(), "place": other.places.get()}[field]
    data = fields(couple, DAY) | {"moments-0-at": "14:00", f"moments-0-{field}": theirs.pk}
    response = couple.post(DAY, data)
    assert response.status_code == 200
    assert "choose one that is in the list" in said(response)
    assert "Heron" not in response.content.decode()
    assert not Moment.objects.exists()


@pytest.mark.parametrize("value", ["0", "-1", "9" * 30, "x", "\0", "1.5", "٣"])
def test_a_place_that_is_none_is_refused(couple, wedding, value):
    wedding.places.create(name="Mill")
    data = fields(couple, DAY) | {"moments-0-at": "14:00", "moments-0-place": value}
    response = couple.post(DAY, data)
    assert response.status_code == 200 or value == "\0"  # NUL is dropped: nothing was chosen
    assert not Moment.objects.filter(place__isnull=False).exists()


def test_a_time_is_on_the_only_day_and_on_none_when_a_second_day_comes_with_it(couple, wedding):
    couple.post(DAY, fields(couple, DAY) | {"moments-0-at": "14:00"})
    assert wedding.moments.get().day == wedding.days.get()
    data = fields(couple, DAY) | {"days-1-date": "2027-06-13", "days-1-key": "second"}
    data |= {"moments-1-kind": "party", "moments-1-at": "20:00", "moments-1-key": "party"}
    assert kept(couple.post(DAY, data))
    ceremony, party = wedding.moments.all()
    assert ceremony.day == wedding.days.first()
    assert party.day is None
    assert "Which day" in said(couple.get(DAY))


def test_partners_are_two_whatever_is_posted(couple, wedding):
    page = fields(couple, TWO)
    for number in (2, 3):
        row = {"name": "Mallory", "key": f"more{number}"}
        page |= {f"partners-{number}-{name}": value for name, value in row.items()}
    response = couple.post(TWO, page)
    assert response.status_code == 200
    assert "The rows of this page have changed" in said(response)
    page = fields(couple, TWO) | {"partners-0-key": "forged", "partners-0-DELETE": "on"}
    couple.post(TWO, page)
    assert Partner.objects.count() == 2


def test_a_list_cannot_grow_without_end(couple, wedding):
    Group.objects.bulk_create(
        Group(wedding=wedding, title=f"G{n}", key=f"g{n}", wish="must") for n in range(MOST_ROWS)
    )
    response = couple.post(GROUPS, group(0, "One more", "Ada"))
    assert response.status_code == 200
    assert f"{MOST_ROWS} rows are the most" in said(response)
    page = {f"groups-{n}-title": f"Draft {n}" for n in range(MOST_ROWS)}
    page = Page(couple.post(GROUPS, page | {"do": "add-groups"}, follow=True)).fields
    assert f"groups-{2 * MOST_ROWS}-title" not in page  # what is typed, beside what is kept
    response = couple.post(GROUPS, {f"groups-{n}-title": "x" for n in range(0, 9999, 7)})
    assert response.status_code == 200
    assert wedding.groups.count() == MOST_ROWS


@pytest.mark.parametrize(("step", "form"), [("day", MomentForm), ("places", PlaceForm)])
def test_what_the_day_is_planned_with_has_an_end_of_its_own(couple, wedding, step, form):
    """Hundreds of moments or places would keep everybody waiting who looks at the plan."""
    prefix, address = {"day": "moments", "places": "places"}[step], f"/q/thora-lukasz/step/{step}"
    rows = {"moments": {"kind": "other", "title": "x", "at": "12:00"}, "places": {"name": "x"}}
    sent = {
        f"{prefix}-{n}-{name}": value
        for n in range(form.most_rows + 1)
        for name, value in rows[prefix].items()
    }
    assert f"{form.most_rows} rows are the most" in said(couple.post(address, sent))


def test_rows_that_no_page_sends_are_not_read():
    data = QueryDict(mutable=True)
    data.update({f"groups-{number}-title": str(number) for number in range(9000)})
    read = typed(data, ["groups"])
    assert read["groups-TOTAL_FORMS"] == str(MOST_SENT)
    titles = [value for name, value in read.items() if name.endswith("-title")]
    assert titles == [str(number) for number in range(MOST_SENT)]
