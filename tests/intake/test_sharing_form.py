"""Who may see the pictures: allowed, not allowed, or not decided yet."""

import pytest

from intake import sharing_words as words
from studio.models import Studio
from studio.words import KEPT
from tests.page import Page, fields, said

PAGE = "/q/thora-lukasz/step/sharing"
LIST = "/q/thora-lukasz/"
USES = {
    "online": words.Online,
    "children": words.Children,
    "gallery": words.Gallery,
    "supplier_use": words.Suppliers,
}


@pytest.mark.parametrize(("use", "choices"), USES.items())
def test_every_answer_is_kept_and_read_through(wedding, couple, use, choices):
    for value, label in choices.choices:
        page = fields(couple, PAGE) | {f"sharing-{use}": value}
        assert couple.post(PAGE, page).status_code == 302
        assert fields(couple, PAGE)[f"sharing-{use}"] == [value]
        assert str(label) in said(couple.get(f"{LIST}read-through"))


def test_nobody_has_to_have_decided(wedding, couple):
    for choices in USES.values():
        assert "undecided" in choices
    assert couple.post(PAGE, fields(couple, PAGE)).status_code == 302
    assert "Whether we may show photographs online" in said(couple.get(LIST))
    couple.post(PAGE, fields(couple, PAGE) | {"sharing-online": "undecided"})
    assert "Whether we may show" not in said(couple.get(LIST))


def test_an_answer_that_is_none_is_told(wedding, couple):
    page = fields(couple, PAGE) | {"sharing-online": "sometimes", "sharing-sharing_note": "Oma"}
    response = couple.post(PAGE, page)
    assert "choose one that is in the list" in said(response)
    assert "#id_sharing-online_0" in Page(response).links
    assert fields(couple, PAGE)["sharing-sharing_note"] == ["Oma"]


def test_who_does_not_want_to_be_photographed_is_named_on_the_private_page(wedding, couple):
    assert "/q/thora-lukasz/step/care" in Page(couple.get(PAGE)).links


@pytest.mark.parametrize("page", [LIST, PAGE, f"{LIST}read-through"])
def test_what_is_kept_and_for_how_long_is_told_before_anything_is_sent(wedding, couple, page):
    assert str(KEPT) in said(couple.get(page))
    Studio.objects.create(name="S", keeps="We keep nothing\nat all.")
    assert "We keep nothingat all." in said(couple.get(page)).replace("nothing at", "nothingat")
    assert "lawyer" not in said(couple.get(page))


def test_the_studio_says_what_it_keeps_and_is_told_whom_to_ask(photographer):
    page = fields(photographer, "/studio") | {"name": "Marigold Lane"}
    assert page["keeps"] == [str(KEPT)]
    assert "Ask a lawyer where unsure." in said(photographer.get("/studio"))
    photographer.post("/studio", page)
    assert Studio.objects.get().keeps == ""  # ours, which is translated
    photographer.post("/studio", page | {"keeps": "We keep it for ten years."})
    assert Studio.objects.get().what_is_kept == "We keep it for ten years."
