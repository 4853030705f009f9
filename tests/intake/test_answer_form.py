"""Two people answer one questionnaire: neither undoes, doubles or brings back."""

import hashlib
import re

import pytest
from django.contrib.sessions.models import Session

from intake.models import StepState
from tests.intake.group import GROUPS, group, kept
from tests.page import Page, fields, said

TWO = "/q/thora-lukasz/step/two-of-you"


def test_one_partner_undoes_nothing_that_the_other_kept_since(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra") | group(1, "Cousins", "Ada"))
    mine, yours = fields(couple, GROUPS), fields(couple, GROUPS)
    assert kept(couple.post(GROUPS, yours | {"groups-0-people": ["Þóra\r\nŁukasz"]}))
    assert kept(couple.post(GROUPS, mine | group(2, "Friends", "Bo")))
    people = {g.title: g.people for g in wedding.groups.all()}
    assert people == {"Parents": "Þóra\nŁukasz", "Cousins": "Ada", "Friends": "Bo"}


def test_a_row_that_one_removed_is_not_brought_back_by_a_page_that_still_shows_it(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra") | group(1, "Cousins", "Ada"))
    mine, yours = fields(couple, GROUPS), fields(couple, GROUPS)
    couple.post(GROUPS, yours | {"groups-1-DELETE": "on"})
    assert kept(couple.post(GROUPS, mine | {"groups-0-title": "Both parents"}))
    assert [g.title for g in wedding.groups.all()] == ["Both parents"]


def test_a_row_that_one_removed_and_the_other_changed_is_kept(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra") | group(1, "Cousins", "Ada"))
    mine, yours = fields(couple, GROUPS), fields(couple, GROUPS)
    couple.post(GROUPS, yours | {"groups-1-DELETE": "on"})
    assert kept(couple.post(GROUPS, mine | {"groups-1-people": "Ada\nBo"}))
    assert [g.people for g in wedding.groups.all()] == ["Þóra", "Ada\nBo"]


def test_the_names_of_many_rows_that_are_kept_all_the_same_wait_nowhere_but_in_a_cookie(couple):
    """On our side they would outlast the wedding."""
    marks = "--".join(
        f"{name}-00000000" for name in ("title", "everyone", "people", "extra", "wish")
    )
    rows = {}
    for number in range(60):
        title = hashlib.sha256(str(number).encode()).hexdigest()
        rows |= group(number, title, "Ada") | {f"groups-{number}-was": marks}
    page = couple.post(GROUPS, rows, follow=True)
    assert "Removed elsewhere meanwhile" in said(page)
    assert not Session.objects.exists()


def test_two_people_who_change_one_row_are_told_before_either_loses_words(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    mine, yours = fields(couple, GROUPS), fields(couple, GROUPS)
    couple.post(GROUPS, yours | {"groups-0-people": "Þóra\nÖdön"})
    response = couple.post(GROUPS, mine | {"groups-0-people": "Þóra\nAda"})
    assert response.status_code == 200
    assert "It now says: Þóra Ödön" in said(response)
    still = Page(response).fields
    assert still["groups-0-people"] == ["Þóra\r\nAda"]
    assert not kept(couple.post(GROUPS, still))  # told, and not yet answered
    assert wedding.groups.get().people == "Þóra\nÖdön"


@pytest.mark.parametrize(
    ("side", "people"),
    [("ours", "Þóra\nAda"), ("theirs", "Þóra\nÖdön"), ("both", "Þóra\nÖdön\nAda")],
)
def test_who_is_told_of_a_clash_chooses(couple, wedding, side, people):
    page = clash(couple)
    picked = picks(couple, side)
    assert kept(couple.post(GROUPS, page | {"groups-0-people_pick": picked}))
    assert wedding.groups.get().people == people
    assert not StepState.objects.get().draft
    again = page | {"groups-0-people_pick": picked, "do": "draft"}
    assert couple.post(GROUPS, again).json() == {"draft": False}  # by a phone that heard no answer


def test_a_choice_made_against_older_words_is_asked_for_again(couple, wedding):
    page, pick = clash(couple), picks(couple, "ours")
    wedding.groups.update(people="Þóra\nCy")
    response = couple.post(GROUPS, page | {"groups-0-people_pick": pick})
    assert "It now says: Þóra Cy" in said(response)
    assert wedding.groups.get().people == "Þóra\nCy"


def clash(couple):
    """The page that tells of two changes to one answer, as it would be sent."""
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    mine, yours = fields(couple, GROUPS), fields(couple, GROUPS)
    couple.post(GROUPS, yours | {"groups-0-people": "Þóra\nÖdön"})
    return Page(couple.post(GROUPS, mine | {"groups-0-people": "Þóra\nAda"})).fields


def picks(couple, side):
    """What the button of one side sends."""
    return re.search(rf'_pick" [^>]*value="({side}-\w+)"', couple.get(GROUPS).content.decode())[1]


def test_two_fields_of_one_row_are_merged_without_asking(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    mine, yours = fields(couple, GROUPS), fields(couple, GROUPS)
    couple.post(GROUPS, yours | {"groups-0-people": "Þóra\nÖdön"})
    response = couple.post(GROUPS, mine | {"groups-0-title": "Both parents"}, follow=True)
    assert "changed on another phone or computer meanwhile: People" in said(response)
    (both,) = wedding.groups.all()
    assert (both.title, both.people) == ("Both parents", "Þóra\nÖdön")


def test_a_half_merged_page_is_checked_as_it_will_be_kept(couple, wedding):
    url = "/q/thora-lukasz/step/day"
    couple.post(url, fields(couple, url) | {"moments-0-unknown": "on"})
    mine, yours = fields(couple, url), fields(couple, url)
    yours.pop("moments-0-unknown")
    assert kept(couple.post(url, yours | {"moments-0-at": "14:00"}))
    assert kept(couple.post(url, mine | {"moments-0-title": "Vows"}))
    (vows,) = wedding.moments.all()
    assert (vows.title, str(vows.at), vows.unknown) == ("Vows", "14:00:00", False)


def test_a_row_that_the_other_changed_is_not_removed_unseen(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    mine, yours = fields(couple, GROUPS), fields(couple, GROUPS)
    couple.post(GROUPS, yours | {"groups-0-people": "Þóra\nÖdön"})
    response = couple.post(GROUPS, mine | {"groups-0-DELETE": "on"})
    assert "It now says: Þóra Ödön" in said(response)
    page = Page(response).fields
    assert wedding.groups.exists()
    stay = re.search(r'DELETE_pick" [^>]*value="(theirs-\w+)"', response.content.decode())[1]
    assert kept(couple.post(GROUPS, page | {"groups-0-DELETE_pick": stay}))
    assert wedding.groups.get().people == "Þóra\nÖdön"
    go = stay.replace("theirs", "ours")
    assert kept(couple.post(GROUPS, page | {"groups-0-DELETE_pick": go}))
    assert not wedding.groups.exists()


def test_a_row_that_the_other_added_is_on_the_page_that_is_sent_back(couple, wedding):
    mine = fields(couple, GROUPS)
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    page = Page(couple.post(GROUPS, mine | group(0, "", "Ada", key="c"))).fields
    assert page["groups-1-title"] == ["Parents"]
    assert kept(couple.post(GROUPS, page | {"groups-0-title": "Cousins"}))
    assert {g.title for g in wedding.groups.all()} == {"Parents", "Cousins"}


def test_what_matters_most_is_asked_about_as_well(couple, wedding):
    mine, yours = fields(couple, TWO), fields(couple, TWO)
    couple.post(TWO, yours | {"wedding-matters": "Grandmother’s laugh"})
    response = couple.post(TWO, mine | {"wedding-matters": "Light"})
    assert "It now says: Grandmother’s laugh" in said(response)
    assert "#id_wedding-matters" in Page(response).links
    wedding.refresh_from_db()
    assert wedding.matters == "Grandmother’s laugh"


def test_two_people_who_change_the_same_row_in_the_same_way_agree(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    page = fields(couple, GROUPS) | {"groups-0-people": "Þóra\nÖdön", "groups-0-wish": "nice"}
    assert kept(couple.post(GROUPS, page))
    assert kept(couple.post(GROUPS, page))
    assert wedding.groups.get().wish == "nice"


def test_what_matters_most_is_not_undone_by_a_page_opened_earlier(couple, wedding):
    mine, yours = fields(couple, TWO), fields(couple, TWO)
    couple.post(TWO, yours | {"wedding-matters": "Grandmother’s laugh"})
    assert kept(couple.post(TWO, mine | {"partners-0-phone": "07700 900111"}))
    wedding.refresh_from_db()
    assert wedding.matters == "Grandmother’s laugh"
    assert wedding.partners.first().phone == "07700 900111"
