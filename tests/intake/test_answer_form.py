"""Two people answer one questionnaire: neither undoes, doubles or brings back."""

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


def test_two_people_who_change_one_row_are_told_before_either_loses_words(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    mine, yours = fields(couple, GROUPS), fields(couple, GROUPS)
    couple.post(GROUPS, yours | {"groups-0-people": "Þóra\nÖdön"})
    response = couple.post(GROUPS, mine | {"groups-0-people": "Þóra\nAda"})
    assert response.status_code == 200
    assert "It now says: Þóra Ödön" in said(response)
    assert wedding.groups.get().people == "Þóra\nÖdön"
    still = Page(response).fields
    assert still["groups-0-people"] == ["Þóra\r\nAda"]
    assert kept(couple.post(GROUPS, still))  # told once, it is theirs to decide
    assert wedding.groups.get().people == "Þóra\nAda"


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
