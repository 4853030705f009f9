"""What does not apply is not asked, not missing, and never lost where it was said."""

import pytest

from intake.forms import MomentForm
from intake.models import Contact, Moment, MustHave, Place, StepState
from intake.progress import count_missing, progress
from tests.page import Page, fields, said

STEP = "/q/thora-lukasz/step/"
LIST = "/q/thora-lukasz/"


def leave_out(wedding, *names):
    wedding.not_asked = list(names)
    wedding.save()


def choices(client, page, name):
    """The values of a list or of boxes on a page."""
    html = client.get(page).content.decode()
    head, _mark, rest = html.partition(f'name="{name}"')
    assert rest or not head
    part = rest.partition("</select>")[0] if "<select" in head[-40:] else html
    return [line.partition('"')[0] for line in part.split('value="')[1:]]


def test_a_page_that_was_taken_off_is_not_listed_and_still_opens(wedding, couple):
    leave_out(wedding, "step.groups")
    assert f"{STEP}groups" not in Page(couple.get(LIST)).links
    assert "taken this page off your list" in said(couple.get(f"{STEP}groups"))
    assert "taken this page off" not in said(couple.get(f"{STEP}day"))
    typed = {"groups-0-title": "Parents", "groups-0-people": "Jarmila"}
    page = fields(couple, f"{STEP}groups") | typed
    assert couple.post(f"{STEP}groups", page).status_code == 302
    assert wedding.groups.get().title == "Parents"
    assert "Parents" in said(couple.get(f"{LIST}read-through"))


def test_typing_on_a_page_that_was_taken_off_keeps_it_on_the_list(wedding, couple):
    StepState.objects.create(wedding=wedding, slug="groups", draft={"groups-0-title": ["Parents"]})
    leave_out(wedding, "step.groups")
    assert f"{STEP}groups" in Page(couple.get(LIST)).links
    assert "Nothing was sent" in said(couple.post(f"{LIST}read-through"))
    couple.post(f"{STEP}groups", fields(couple, f"{STEP}groups") | {"do": "forget"})
    assert f"{STEP}groups" not in Page(couple.get(LIST)).links


def test_a_page_taken_off_with_nothing_on_it_is_not_read_through(wedding, couple):
    assert "Group photographs" in said(couple.get(f"{LIST}read-through"))
    leave_out(wedding, "step.groups", "step.pictures", "step.sharing")
    text = said(couple.get(f"{LIST}read-through"))
    for title in ("Group photographs", "Pictures you like", "Who may see the pictures"):
        assert title not in text


def test_a_list_that_does_not_apply_is_not_there_unless_somebody_is_on_it(wedding, couple):
    leave_out(wedding, "list.suppliers")
    assert "Others who work that day" not in said(couple.get(f"{STEP}people"))
    page = fields(couple, f"{STEP}people")
    typed = {"suppliers-0-role": "Flowers", "suppliers-0-name": "Ida", "suppliers-0-key": "k"}
    assert couple.post(f"{STEP}people", page | typed).status_code == 302  # a page from before
    assert Contact.objects.get().name == "Ida"
    assert "Others who work that day" in said(couple.get(f"{STEP}people"))


def test_a_thing_with_a_time_leaves_the_choices_unless_it_is_chosen(wedding, couple):
    Moment.objects.create(wedding=wedding, key="s", kind="speeches", unknown=True)
    leave_out(wedding, "moment.speeches", "moment.cake")
    assert {"speeches", "dance"} <= set(choices(couple, f"{STEP}day", "moments-0-kind"))
    assert "cake" not in choices(couple, f"{STEP}day", "moments-0-kind")
    assert couple.post(f"{STEP}day", fields(couple, f"{STEP}day")).status_code == 302
    assert Moment.objects.get().kind == "speeches"
    wants = fields(couple, f"{STEP}day") | {"moments-0-kind": "cake"}  # from an older page
    assert couple.post(f"{STEP}day", wants).status_code == 302
    assert Moment.objects.get().kind == "cake"
    MustHave.objects.create(wedding=wedding, key="m", text="The cut", kind="cake")
    assert fields(couple, f"{STEP}photographs")["musthaves-0-kind"] == ["cake"]


def test_a_list_of_times_begins_without_what_does_not_apply(wedding):
    assert [row["kind"] for row in MomentForm.begins(wedding)] == ["ceremony", "meal"]
    wedding.not_asked = ["moment.ceremony"]
    assert [row["kind"] for row in MomentForm.begins(wedding)] == ["meal"]
    wedding.not_asked = ["moment.ceremony", "moment.meal"]
    assert MomentForm.begins(wedding) == ({},)


@pytest.mark.parametrize(
    ("name", "page", "box", "typed"),
    [
        ("places.wet_plan", "places", "places-0-wet_plan", "The loft"),
        ("places.in_charge", "places", "places-0-coordinator", "Ríona"),
        ("places.not_allowed", "places", "places-0-not_allowed", "Flash"),
        ("partners.word", "two-of-you", "partners-0-word", "bride"),
        ("wedding.matters", "two-of-you", "wedding-matters", "Warmth"),
        ("wedding.gallery", "sharing", "sharing-gallery", "two"),
        ("wedding.children", "sharing", "sharing-children", "no"),
    ],
)
def test_a_box_that_does_not_apply_is_not_there_unless_it_holds_something(
    wedding, couple, name, page, box, typed
):
    Place.objects.create(wedding=wedding, name="Mill", key="m")
    before = fields(couple, f"{STEP}{page}")
    leave_out(wedding, name)
    assert f'name="{box}"' not in couple.get(f"{STEP}{page}").content.decode()
    assert couple.post(f"{STEP}{page}", fields(couple, f"{STEP}{page}")).status_code == 302
    assert couple.post(f"{STEP}{page}", before | {box: typed}).status_code == 302  # an older page
    assert fields(couple, f"{STEP}{page}")[box] == [typed]
    assert couple.post(f"{STEP}{page}", fields(couple, f"{STEP}{page}")).status_code == 302
    assert fields(couple, f"{STEP}{page}")[box] == [typed]


def test_uses_of_a_place_leave_the_choices_unless_they_are_chosen(wedding, couple):
    Place.objects.create(wedding=wedding, name="Mill", key="m", uses=["party"])
    leave_out(wedding, "use.party", "use.groups")
    html = couple.get(f"{STEP}places").content.decode()
    assert 'value="party"' in html
    assert 'value="groups"' not in html.partition("<template>")[0]
    assert couple.post(f"{STEP}places", fields(couple, f"{STEP}places")).status_code == 302
    assert Place.objects.get().uses == ["party"]


def missing(wedding, slug):
    return next(each.missing for each in progress(wedding) if each.step.slug == slug)


def test_what_does_not_apply_is_not_missing(wedding):
    Place.objects.create(wedding=wedding, name="Mill", key="m")
    for slug in ("day", "places", "people", "sharing"):
        StepState.objects.create(wedding=wedding, slug=slug, saved_at="2027-01-01T00:00Z")
    assert count_missing(wedding) == 5
    leave_out(wedding, "places.wet_plan", "list.helpers", "step.sharing")
    assert count_missing(wedding) == 2
    assert missing(wedding, "places") == missing(wedding, "people") == ()
    leave_out(wedding, "moment.ceremony")
    assert missing(wedding, "day") == ("One time that is fixed",)
    Moment.objects.create(wedding=wedding, key="p", kind="party", at="19:00")
    assert missing(wedding, "day") == ()


def test_names_that_mean_nothing_hide_nothing(wedding, couple):
    leave_out(wedding, "step.day2", "x", "", "field.")
    assert f"{STEP}day" in Page(couple.get(LIST)).links
