"""Typing that is not kept yet: no page overwrites what another wrote down."""

import pytest
from django.test import Client

from intake.drafts import MOST_SHEETS, MOST_TYPED, sheet_for, sheets_of
from intake.links import link_path
from intake.models import StepState
from tests.intake.group import GROUPS, group, kept
from tests.page import Page, fields, said

LIST = "/q/thora-lukasz/"


@pytest.fixture
def partner(wedding):
    """The other partner's phone."""
    client = Client()
    client.get(link_path(wedding))
    return client


def write(client, page, **more):
    return client.post(GROUPS, page | {"do": "draft"} | more).json()


def texts(wedding):
    """Every group's people on every sheet."""
    sheets = sheets_of(wedding.steps.get(slug="groups"))
    return sorted(s.typed["groups-0-people"][0] for s in sheets)


def test_two_phones_write_on_two_sheets(couple, partner, wedding):
    ours, theirs = fields(couple, GROUPS), fields(partner, GROUPS)
    write(couple, ours | group(0, "Parents", "Þóra"))
    write(partner, theirs | group(0, "Cousins", "Ada"))
    write(couple, ours | group(0, "Parents", "Þóra\nÖdön"), turn="2")
    assert texts(wedding) == ["Ada", "Þóra\nÖdön"]
    assert fields(couple, GROUPS)["groups-0-title"] == ["Parents"]
    assert fields(partner, GROUPS)["groups-0-title"] == ["Cousins"]


def test_two_pages_on_one_phone_write_on_two_sheets(couple, wedding):
    first, second = fields(couple, GROUPS), fields(couple, GROUPS)
    write(couple, first | group(0, "Parents", "Þóra"))
    write(couple, second | group(0, "Cousins", "Ada"))
    assert texts(wedding) == ["Ada", "Þóra"]
    page = couple.get(GROUPS)
    assert Page(page).fields["groups-0-title"] == ["Cousins"]
    (other,) = [link for link in Page(page).links if link and link.startswith("?sheet=")]
    assert fields(couple, GROUPS + other)["groups-0-title"] == ["Parents"]


def test_a_page_that_goes_on_with_a_sheet_replaces_it(couple, wedding):
    write(couple, fields(couple, GROUPS) | group(0, "Parents", "Þóra"))
    write(couple, fields(couple, GROUPS) | {"groups-0-people": "Þóra\nÖdön"})
    assert texts(wedding) == ["Þóra\nÖdön"]


def test_a_sheet_that_its_own_page_went_on_with_is_not_replaced(couple, partner, wedding):
    page = fields(couple, GROUPS)
    write(couple, page | group(0, "Parents", "Þóra"))
    seen = fields(partner, GROUPS)  # shows what the other is typing
    write(couple, page | group(0, "Parents", "Þóra\nÖdön"), turn="2")
    write(partner, seen | {"groups-0-people": "Þóra\nAda"})
    assert texts(wedding) == ["Þóra\nAda", "Þóra\nÖdön"]


def test_a_sending_that_comes_late_does_not_undo_a_later_one(couple, wedding):
    page = fields(couple, GROUPS)
    write(couple, page | group(0, "Parents", "Þóra\nÖdön"), turn="2")
    write(couple, page | group(0, "Parents", "Þóra"), turn="1")
    assert texts(wedding) == ["Þóra\nÖdön"]


def test_a_forged_turn_or_sheet_loses_nothing(couple, wedding):
    for number, forged in enumerate(("x", "-1", "9" * 99, "\0", "٣", "")):
        page = fields(couple, GROUPS) | group(0, "Parents", f"Name {number}")
        assert write(couple, page, sheet=forged, turn=forged) == {"draft": True}
        assert f"Name {number}" in texts(wedding)


def test_typing_that_is_kept_already_is_no_draft(couple, wedding):
    page = fields(couple, GROUPS) | group(0, "Parents", "Þóra")
    assert kept(couple.post(GROUPS, page))
    assert write(couple, page) == {"draft": False}  # sent once more, from a phone in a tunnel
    assert StepState.objects.get().draft is None


def test_an_untouched_page_is_no_draft(couple, wedding):
    for url in (GROUPS, f"{LIST}step/day"):
        assert couple.post(url, fields(couple, url) | {"do": "draft"}).json() == {"draft": False}
    assert not StepState.objects.exists()


def test_a_new_row_that_was_removed_again_is_no_draft(couple, wedding):
    page = fields(couple, GROUPS) | group(0, "unfinished", "") | {"groups-0-DELETE": "on"}
    assert write(couple, page) == {"draft": False}


def test_what_one_kept_of_the_others_sheet_is_no_draft_any_more(couple, partner, wedding):
    write(couple, fields(couple, GROUPS) | group(0, "Parents", "Þóra"))
    assert kept(partner.post(GROUPS, fields(partner, GROUPS) | {"groups-0-title": "Both parents"}))
    assert StepState.objects.get().draft is None
    assert wedding.groups.get().title == "Both parents"


def test_keeping_a_step_leaves_the_others_typing(couple, partner, wedding):
    write(couple, fields(couple, GROUPS) | group(0, "Parents", "Þóra"))
    page = fields(partner, f"{GROUPS}?sheet=none")
    assert page["groups-0-title"] == [""]
    assert kept(partner.post(GROUPS, page | group(0, "Cousins", "Ada", key="cousins")))
    assert texts(wedding) == ["Þóra"]
    assert "begun, not kept yet" in said(couple.get(LIST))
    assert kept(couple.post(GROUPS, fields(couple, GROUPS)))
    assert {g.title for g in wedding.groups.all()} == {"Parents", "Cousins"}


def test_throwing_typing_away_leaves_the_others_typing(couple, partner, wedding):
    write(couple, fields(couple, GROUPS) | group(0, "Parents", "Þóra"))
    write(partner, fields(partner, f"{GROUPS}?sheet=none") | group(0, "Cousins", "Ada"))
    couple.post(GROUPS, fields(couple, GROUPS) | {"do": "forget"})
    assert texts(wedding) == ["Ada"]


def test_a_draft_takes_over_what_the_other_kept_meanwhile(couple, partner, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    write(couple, fields(couple, GROUPS) | {"groups-0-title": "Both parents"})
    theirs = fields(partner, f"{GROUPS}?sheet=none")
    partner.post(GROUPS, theirs | {"groups-0-people": "Þóra\nÖdön"} | group(1, "Cousins", "Ada"))
    page = fields(couple, GROUPS)
    assert page["groups-0-title"] == ["Both parents"]
    assert page["groups-0-people"] == ["Þóra\r\nÖdön"]
    assert page["groups-1-title"] == ["Cousins"]


def test_typing_is_found_again_by_a_new_link(couple, wedding):
    from intake.links import make_new_link

    write(couple, fields(couple, GROUPS) | group(0, "Parents", "Þóra"))
    make_new_link(wedding)
    assert couple.get(GROUPS).status_code == 404
    couple.get(link_path(wedding))
    assert "Here is what you had typed" in said(couple.get(GROUPS))  # the same browser
    assert fields(couple, GROUPS)["groups-0-people"] == ["Þóra"]


def test_a_sheet_asked_for_that_is_not_there_is_none():
    assert sheet_for([], "phone") is None
    assert sheet_for(sheets_of(StepState(draft={"x": ["y"]})), "phone", "elsewhere") is None


def test_a_draft_of_plain_fields_belongs_to_whoever_comes(wedding, couple):
    StepState.objects.create(wedding=wedding, slug="groups", draft=group(0, "Old", "Ada"))
    state = StepState.objects.get()
    state.draft = {name: [value] for name, value in state.draft.items()}
    state.save()
    assert "Here is what you had typed" in said(couple.get(GROUPS))
    assert kept(couple.post(GROUPS, fields(couple, GROUPS)))
    assert StepState.objects.get().draft is None


def test_a_step_holds_so_many_sheets_and_the_newest_are_among_them(couple, wedding):
    page = fields(couple, GROUPS)
    for number in range(MOST_SHEETS + 2):
        write(couple, page | group(0, "Parents", f"Name {number:02}"), sheet=f"page{number}")
    assert texts(wedding) == [f"Name {n:02}" for n in range(2, MOST_SHEETS + 2)]


def test_a_step_holds_so_many_characters_and_always_what_was_typed_last(couple, wedding):
    page = fields(couple, GROUPS)
    for number in range(4):
        long = f"{number}" + "x" * (MOST_TYPED // 2)
        write(couple, page | group(0, "Parents", long), sheet=f"page{number}")
    assert [text[0] for text in texts(wedding)] == ["3"]
    write(couple, page | group(0, "Parents", "4"), sheet="page4")
    assert [text[0] for text in texts(wedding)] == ["3", "4"]
