"""One step as forms: what is saved, what is kept as a draft, what is an error."""

from intake.drafts import sheets_of
from intake.models import CareNote, Contact, Group, Moment, MustHave, Place, StepState
from tests.intake.group import GROUPS, group, kept
from tests.page import Page, fields, said

PLACES = "/q/thora-lukasz/step/places"


def test_a_step_posted_twice_makes_no_row_twice(couple, wedding):
    data = fields(couple, GROUPS) | {"groups-0-title": "Parents", "groups-0-people": "Þóra\nÖdön"}
    assert kept(couple.post(GROUPS, data))
    assert kept(couple.post(GROUPS, data))
    assert [g.people for g in wedding.groups.all()] == ["Þóra\nÖdön"]


def test_what_is_kept_comes_back_as_it_was_typed(couple, wedding):
    typed = {
        "places-0-name": "Mäkelä’s Mill & “Barn”",
        "places-0-uses": ["ceremony", "meal"],
        "places-0-address": "1 Weir Lane\r\nOld Harbour",
        "places-0-coordinator": "<b>Anežka</b>",
        "places-0-coordinator_phone": "(01632) 960-123",
        "places-0-coordinator_email": "anezka@example.org",
        "places-0-wet_plan": "The loft",
        "places-0-not_allowed": "Flash",
        "places-0-note": "A goat",
    }
    assert kept(couple.post(PLACES, fields(couple, PLACES) | typed))
    again = fields(couple, PLACES)
    for name, value in typed.items():
        assert again[name] == (value if isinstance(value, list) else [value])
    assert b"<b>Ane" not in couple.get(PLACES).content


def test_a_half_empty_row_is_an_error_beside_its_field_and_nothing_is_saved(couple, wedding):
    data = fields(couple, GROUPS) | group(0, "Parents", "Þóra") | group(1, "", "Ada\nBo", extra="3")
    response = couple.post(GROUPS, data)
    page = Page(response)
    assert response.status_code == 200
    assert response.content.decode().count("<title>Error: ") == 1
    assert "#id_groups-1-title" in page.links
    assert {"id_groups-1-title", "id_groups-1-title_error", "errors"} <= page.ids
    assert page.words.count("Title: enter something here.") == 2
    assert page.fields["groups-1-people"] == ["Ada\r\nBo"]
    assert page.fields["groups-1-extra"] == ["3"]
    assert not Group.objects.exists()


def test_a_page_that_cannot_be_kept_to_its_end_is_not_kept_at_all(couple, wedding, monkeypatch):
    """OWASP ASVS 5.0, 2.3.3: the first row, the second and what lay as a draft, or none of it."""
    typed = fields(couple, GROUPS) | group(0, "Parents", "Þóra") | group(1, "Cousins", "Ada")
    couple.post(GROUPS, typed | {"do": "draft"})
    save = Group.save

    def fall(row, *args, **kwargs):
        save(row, *args, **kwargs)
        if row.title == "Cousins":
            raise RuntimeError("the second row is written, and then the current fails")

    monkeypatch.setattr(Group, "save", fall)
    couple.raise_request_exception = False
    assert couple.post(GROUPS, typed).status_code == 500
    assert not Group.objects.exists()
    assert "Cousins" in str(sheets_of(wedding.steps.get()))


def test_emptying_a_kept_row_is_an_error_and_not_a_silent_removal(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    data = fields(couple, GROUPS) | {"groups-0-title": "", "groups-0-people": ""}
    assert couple.post(GROUPS, data).status_code == 200
    assert wedding.groups.get().title == "Parents"


def test_a_draft_is_shown_on_return_and_gone_once_kept(couple, wedding):
    couple.post(GROUPS, fields(couple, GROUPS) | group(0, "", "Ada") | {"csrfmiddlewaretoken": "s"})
    state = StepState.objects.get()
    assert state.saved_at is None
    (sheet,) = sheets_of(state)
    assert not {"csrfmiddlewaretoken", "do", "sheet"} & set(sheet.typed)
    response = couple.get(GROUPS)
    assert "Here is what you had typed" in said(response)
    assert "enter something here" not in said(response)
    assert "begun, not kept yet" in said(couple.get("/q/thora-lukasz/"))
    assert kept(couple.post(GROUPS, Page(response).fields | {"groups-0-title": "Cousins"}))
    state.refresh_from_db()
    assert state.draft is None
    assert state.saved_at
    assert "Here is what you had typed" not in said(couple.get(GROUPS))
    assert wedding.groups.get().people == "Ada"


def test_a_draft_with_broken_rows_can_still_be_opened(couple, wedding):
    StepState.objects.create(wedding=wedding, slug="groups", draft={"groups-TOTAL_FORMS": ["-9"]})
    data = fields(couple, GROUPS) | group(0, "Cousins", "Ada")
    assert kept(couple.post(GROUPS, data))


def test_one_step_never_touches_the_rows_of_another(couple, wedding):
    Contact.objects.create(wedding=wedding, key="h1", listed_as="helper", name="Šimon")
    url = "/q/thora-lukasz/step/people"
    assert kept(couple.post(url, {"contacts-0-key": "c1", "contacts-0-name": "Jarmila"}))
    assert kept(couple.post(url, {}))
    assert {c.name: c.listed_as for c in Contact.objects.all()} == {
        "Šimon": "helper",
        "Jarmila": "contact",
    }


def test_an_empty_post_changes_nothing_but_says_the_step_was_seen(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    before = list(Group.objects.values())
    assert kept(couple.post(GROUPS, {}))
    assert list(Group.objects.values()) == before


def test_texts_that_nobody_can_type_are_dropped_and_names_stay_as_they_are_spelled(couple, wedding):
    names = ["\u202bנעמי לוי\u202c", "ليلى\u200f منصور", "🙂 Zoë 👩‍👩‍👧", "Ọlá\u0301", "🩷 Mo"]
    people = "\r\n".join([*names, "Nu\0l\x07", "\ufffe\uffff", "\x85"])
    assert kept(couple.post(GROUPS, group(0, "Everyone\0", people)))
    assert wedding.groups.get().title == "Everyone"
    assert wedding.groups.get().people.split("\n") == [*names, "Nul"]
    assert fields(couple, GROUPS)["groups-0-people"] == ["\r\n".join([*names, "Nul"])]


def test_must_haves_and_care_notes_are_kept(couple, wedding):
    url = "/q/thora-lukasz/step/photographs"
    couple.post(url, fields(couple, url) | {"musthaves-0-text": "The watch"})
    assert MustHave.objects.get().kind == ""
    url = "/q/thora-lukasz/step/care"
    note = {"carenotes-0-person": "Ada", "carenotes-0-kind": "apart"}
    response = couple.post(url, fields(couple, url) | note)
    assert "Enter the name of the other person" in said(response)
    assert kept(couple.post(url, Page(response).fields | {"carenotes-0-other": "Bo"}))
    assert CareNote.objects.get().other == "Bo"


def test_removing_a_place_leaves_its_times(couple, wedding):
    place = Place.objects.create(wedding=wedding, key="mill", name="Mill")
    Moment.objects.create(wedding=wedding, kind="ceremony", place=place, key="c")
    couple.post(PLACES, fields(couple, PLACES) | {"places-0-DELETE": "on"})
    assert Moment.objects.get().place is None
