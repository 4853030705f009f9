"""The photographer's screen of pictures, and where pictures stand on other screens."""

import pytest
from django.template.loader import render_to_string

from intake.models import Picture
from planning.models import StudioPicture
from tests.page import Page, fields, said
from tests.sent_files import SCRIPT, jpeg, upload

SCREEN = "/w/thora-lukasz/pictures"


@pytest.fixture(autouse=True)
def _own_store(kept_files):
    """No test sees the files of another."""


def add(client, *uploads, **typed):
    return client.post(SCREEN, fields(client, SCREEN) | typed | {"files": list(uploads)})


def theirs(couple, line=""):
    page = "/q/thora-lukasz/step/pictures"
    couple.post(page, fields(couple, page) | {"files": [upload(jpeg())], "line": line})
    return Picture.objects.get()


def test_the_photographers_pictures_are_their_own(wedding, photographer, couple):
    assert add(photographer, upload(jpeg()), line="The big door")["Location"] == SCREEN
    own = StudioPicture.objects.get()
    assert own.line == "The big door"
    assert not Picture.objects.exists()
    assert photographer.get(f"/w/thora-lukasz/picture/{own.key}").status_code == 200
    for client in (couple, photographer):  # not by the couple's address, whoever asks
        assert client.get(f"/q/thora-lukasz/picture/{own.key}").status_code == 404
    page = couple.get("/q/thora-lukasz/step/pictures")
    assert "The big door" not in page.content.decode()


def test_a_picture_of_one_wedding_is_not_found_under_another(wedding, other, photographer):
    add(photographer, upload(jpeg()))
    key = StudioPicture.objects.get().key
    assert photographer.get(f"/w/wanjiru-odon/picture/{key}").status_code == 404


def test_a_bad_file_is_told_and_its_line_stays(wedding, photographer):
    response = add(photographer, upload(SCRIPT, "door.jpg"), line="The big door")
    assert "“door.jpg”: This is not a JPEG" in said(response)
    assert Page(response).fields["line"] == ["The big door"]


def test_the_couples_pictures_are_looked_at_here_and_changed_on_their_page(
    wedding, photographer, couple
):
    assert "They have sent no pictures" in said(photographer.get(SCREEN))
    picture = theirs(couple, "So warm")
    response = photographer.get(SCREEN)
    assert "So warm" in said(response)
    assert f"/q/thora-lukasz/picture/{picture.key}/small" in response.content.decode()
    assert "/q/thora-lukasz/step/pictures" in Page(response).links


def test_both_stand_with_the_answers(wedding, photographer, couple):
    theirs(couple, "So warm")
    add(photographer, upload(jpeg(1)), line="The big door")
    words = said(photographer.get("/w/thora-lukasz/answers"))
    assert words.index("So warm") < words.index("The big door")
    assert "The big door" not in said(couple.get("/q/thora-lukasz/read-through"))


def test_the_part_for_other_screens_shows_both_and_nothing_where_there_is_none(
    wedding, photographer, couple
):
    part = "planning/_pictures.html"
    assert not render_to_string(part, {"wedding": wedding}).strip()
    picture = theirs(couple, "<b>So</b> warm")
    add(photographer, upload(jpeg(1)))
    html = render_to_string(part, {"wedding": wedding})
    assert f"/q/thora-lukasz/picture/{picture.key}/small" in html
    assert f"/w/thora-lukasz/picture/{StudioPicture.objects.get().key}/small" in html
    assert "&lt;b&gt;So&lt;/b&gt; warm" in html
    assert html.count("alt=") == 2
