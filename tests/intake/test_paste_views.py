"""The page where a list is pasted: read, looked at, kept by the couple and by nobody else."""

import pytest

from intake.drafts import sheets_of
from intake.models import Group
from intake.paste_views import MOST_TEXT
from tests.intake.group import GROUPS, group, kept
from tests.page import Page, fields, said

PASTE = f"{GROUPS}/paste"
LIST = "Hi Marta!\n- Us + Łukasz’s parents: Zofia, Jan\n- Choir x12\n- Everybody"


def paste(client, text):
    return client.post(PASTE, fields(client, PASTE) | {"text": text})


def test_a_pasted_list_is_shown_as_rows_and_kept_only_by_the_button(couple, wedding):
    response = paste(couple, LIST)
    page = Page(response)
    assert page.fields["groups-0-title"] == ["Us + Łukasz’s parents"]
    assert page.fields["groups-0-people"] == ["Þóra\r\nŁukasz\r\nZofia\r\nJan"]
    assert page.fields["groups-1-extra"] == ["12"]
    assert page.fields["groups-2-everyone"] == ["on"]
    assert "3 groups were read from your list" in said(response)
    assert "Hi Marta!" in said(response)  # left out, and said so
    assert not Group.objects.exists()
    assert kept(couple.post(GROUPS, page.fields))
    assert [g.title for g in wedding.groups.all()] == [
        "Us + Łukasz’s parents",
        "Choir",
        "Everybody",
    ]
    assert wedding.steps.get().draft is None


def test_a_list_pasted_and_left_is_there_on_return(couple, wedding):
    paste(couple, LIST)
    assert fields(couple, GROUPS)["groups-1-title"] == ["Choir"]


def test_what_was_kept_or_typed_before_stays_above_the_list(couple, wedding):
    couple.post(GROUPS, group(0, "Parents", "Þóra"))
    page = fields(couple, GROUPS) | group(1, "", "Half a group", key="half")
    assert couple.post(GROUPS, page | {"do": "paste"}).url == PASTE
    page = Page(paste(couple, "Us + Ada")).fields
    assert page["groups-0-title"] == ["Parents"]
    assert page["groups-1-people"] == ["Half a group"]
    assert page["groups-2-title"] == ["Us + Ada"]
    assert len(sheets_of(wedding.steps.get())) == 1
    assert kept(couple.post(GROUPS, page | {"groups-1-title": "Half"}))
    assert wedding.groups.count() == 3


@pytest.mark.parametrize("text", ["", " \n ", "Hello!\n", "x" * (MOST_TEXT + 1)])
def test_what_holds_no_group_is_told_and_stays(couple, wedding, text):
    response = paste(couple, text)
    assert response.content.decode().count("<title>Error: ") == 1
    assert "#id_text" in Page(response).links
    assert Page(response).fields["text"] == [text.replace("\n", "\r\n")]
    assert not wedding.steps.exists()


def test_a_row_for_every_line_as_far_as_rows_go(couple, wedding):
    response = paste(couple, "\n".join(f"Guest {number} Lund" for number in range(320)))
    page = Page(response)
    assert "groups-299-title" in page.fields
    assert "groups-300-title" not in page.fields
    assert "300 Lund" in page.words  # among what was left out


def test_the_page_opens_to_nobody_without_the_link(wedding, client):
    assert client.get(PASTE).status_code == 404
    assert client.post(PASTE, {"text": LIST}).status_code == 404
    assert not wedding.steps.exists()


def test_names_typed_once_are_offered_again(couple, wedding):
    wedding.contacts.create(name="Šimon", listed_as="helper")
    couple.post(GROUPS, group(0, "Parents", "Zofia\nJan"))
    page = couple.get(GROUPS).content.decode()
    for name in ("Zofia", "Jan", "Šimon", "Þóra"):
        assert f'<option value="{name}">' in page
    more = fields(couple, GROUPS) | group(1, "Jan", "") | {"groups-1-also": "Jan"}
    assert kept(couple.post(GROUPS, more))
    assert [g.people for g in wedding.groups.all()] == ["Zofia\nJan", "Jan"]


def test_past_eight_groups_a_gentle_word_is_said(couple, wedding):
    rows = {}
    for number in range(9):
        rows |= group(number, f"G{number}", "Ada")
    couple.post(GROUPS, {name: rows[name] for name in rows if not name.startswith("groups-8")})
    assert "more than most days have room for" not in said(couple.get(GROUPS))
    couple.post(GROUPS, fields(couple, GROUPS) | group(8, "G8", "Ada"))
    assert "more than most days have room for" in said(couple.get(GROUPS))
