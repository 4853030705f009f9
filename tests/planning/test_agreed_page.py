"""The couple's page of the summary: read, confirmed or objected to, by them alone."""

from datetime import time

import pytest
from django.test import Client

from intake.links import COOKIE, link_path
from intake.models import CareNote, Moment, Wedding
from planning.models import Agreement, MeetingPoint
from tests.page import Page, said

from .agreed import agreed, shared

AGREED = "/q/thora-lukasz/agreed"
STEPS = "/q/thora-lukasz/"


def post(client, do, page=None, **typed):
    sent = (page or Page(client.get(AGREED))).fields
    return client.post(AGREED, sent | {"do": do} | typed, follow=True)


def test_before_anything_is_shared_the_page_says_so_and_the_list_is_silent(couple, timed):
    assert "There is none yet" in said(couple.get(AGREED))
    assert "Agreed summary" not in said(couple.get(STEPS))


def test_it_is_read_and_confirmed_under_a_name(couple, timed):
    shared(timed)
    words = said(couple.get(AGREED))
    for part in ("Saturday 12 June 2027", "14:00 to about", "Orchard Barn", "Version 1"):
        assert part in words
    page = post(couple, "confirm", name="  Þóra Sigurðardóttir ")
    assert "Confirmed by Þóra Sigurðardóttir" in said(page)
    version = Agreement.objects.get()
    assert version.confirmed_by == "Þóra Sigurðardóttir"
    assert version.confirmed_at is not None
    assert "confirmed" in said(couple.get(STEPS))
    assert "Confirm this summary" not in said(couple.get(AGREED))


def test_without_a_name_nothing_is_confirmed(couple, timed):
    shared(timed)
    page = post(couple, "confirm", name=" ")
    assert "Enter your full name, then confirm." in said(page)
    assert "#id_name" in Page(page).links
    assert "Error:" in page.content.decode().split("</title>")[0]
    assert Agreement.objects.get().confirmed_at is None


def test_what_is_not_right_is_an_open_point(couple, timed, photographer):
    shared(timed)
    page = post(couple, "say", text="Nana sits\r\nat the left", name="Þóra")
    assert "Your photographer reads it" in said(page)
    assert "What you told us" in said(page)
    (point,) = MeetingPoint.objects.all()
    assert point.text == "Nana sits\nat the left"
    assert (point.by, point.agreement.number) == ("couple", 1)
    assert "Nana sits" in said(photographer.get("/w/thora-lukasz/meeting"))
    assert Agreement.objects.get().confirmed_at is None


@pytest.mark.parametrize("text", ["", "  \n "])
def test_nothing_said_is_not_sent(couple, timed, text):
    shared(timed)
    page = post(couple, "say", text=text, name="Þóra")
    assert "Write what is not right, then send it." in said(page)
    assert Page(page).fields["name"] == ["Þóra"]
    assert not MeetingPoint.objects.exists()


def test_too_long_a_text_stays_in_its_box(couple, timed):
    shared(timed)
    page = post(couple, "say", text="x" * 2001)
    assert "Shorten this to 2000 characters" in said(page)
    assert Page(page).fields["text"] == ["x" * 2001]


def test_who_wrote_what_is_not_right_does_not_confirm_by_mistake(couple, timed):
    shared(timed)
    page = post(couple, "confirm", name="Þóra", text="Nana sits left")
    assert "Send it, or empty the box before you confirm" in said(page)
    assert Page(page).fields["text"] == ["Nana sits left"]
    assert Agreement.objects.get().confirmed_at is None


def test_a_newer_version_is_read_before_it_is_confirmed(couple, timed):
    shared(timed)
    old = Page(couple.get(AGREED))
    Moment.objects.filter(kind="dance").update(at=time(21))
    shared(timed)
    page = post(couple, "confirm", old, name="Þóra")
    assert "There is a newer summary than the one you read" in said(page)
    assert Page(page).fields["name"] == ["Þóra"]
    assert not Agreement.objects.exclude(confirmed_at=None).exists()
    post(couple, "confirm", Page(page), name="Þóra")
    assert Agreement.objects.get(number=2).confirmed_by == "Þóra"


def test_confirmed_twice_the_first_stands(couple, timed):
    shared(timed)
    page = Page(couple.get(AGREED))
    post(couple, "confirm", page, name="Þóra")
    second = post(couple, "confirm", page, name="Łukasz")
    assert "Confirmed by Þóra." in said(second)
    assert Agreement.objects.get().confirmed_by == "Þóra"


def test_what_changed_since_stands_above_what_they_agreed(couple, timed):
    agreed(timed)
    Moment.objects.filter(kind="dance").update(at=time(21))
    words = said(couple.get(AGREED))
    assert "Changed since you agreed" in words
    assert "Dance: 21:00" in words.replace("First dance", "Dance")
    assert "(before: 20:30" in words
    shared(timed)
    words = said(couple.get(AGREED))
    assert "Changed since you agreed on" in words
    assert "Version 2" in words
    post(couple, "confirm", name="Þóra")
    assert "Changed since" not in said(couple.get(AGREED))


def test_a_change_after_it_was_shared_is_told_before_they_confirm(couple, timed):
    shared(timed)
    Moment.objects.filter(kind="dance").update(at=time(21))
    assert "Changed since this was shared" in said(couple.get(AGREED))


@pytest.mark.parametrize("change", [{"snapshot": "{}"}, {"digest": "f" * 64}])
def test_a_tampered_summary_is_told_and_not_confirmed(couple, timed, change):
    shared(timed)
    sent = Page(couple.get(AGREED))
    Agreement.objects.update(**change)
    words = said(couple.get(AGREED))
    assert "This is not the text that was shared" in words
    assert "Confirm this summary" not in words
    assert "Nothing was confirmed" in said(post(couple, "confirm", sent, name="Þóra"))
    assert Agreement.objects.get().confirmed_at is None


def test_another_couple_reads_and_changes_nothing(couple, timed, other):
    shared(timed)
    theirs = Client()
    theirs.get(link_path(other))
    theirs.cookies[COOKIE]["path"] = "/"
    sent = Page(couple.get(AGREED)).fields | {"do": "confirm", "name": "Mallory"}
    for ask in (theirs.get, lambda address: theirs.post(address, sent)):
        answer, wrong = ask(AGREED), ask("/q/nobody/agreed")
        assert answer.status_code == wrong.status_code == 404
        assert answer.content == wrong.content
    assert Agreement.objects.get().confirmed_at is None
    assert "There is none yet" in said(theirs.get("/q/wanjiru-odon/agreed"))


def test_the_photographer_reads_it_and_does_not_confirm_for_them(photographer, couple, timed):
    shared(timed)
    assert "Confirm this summary" not in said(photographer.get(AGREED))
    page = post(photographer, "confirm", Page(couple.get(AGREED)), name="Marigold")
    assert "Only the couple can answer here" in said(page)
    assert Agreement.objects.get().confirmed_at is None


def test_private_notes_and_care_are_not_on_the_page(couple, timed):
    CareNote.objects.create(wedding=timed, key="c", person="Amma", kind="seat", note="her hip")
    timed.answer_notes.create(key="care.carenotes.c", about="Amma", text="chair", settled=True)
    timed.meeting_points.create(key="p", text="Uncles apart", note="row between")
    shared(timed)
    words = said(couple.get(AGREED))
    for private in ("Amma", "hip", "chair", "Uncles", "row between"):
        assert private not in words


def test_it_is_never_stored_and_light_enough_for_a_phone(couple, timed):
    shared(timed)
    response = couple.get(AGREED)
    assert "no-store" in response["Cache-Control"]
    assert len(response.content) < 60_000


@pytest.mark.parametrize("junk", ["\x00\x07\ufffe", "x" * 100_000, "‮", "%s %(n)s", "<script>"])
def test_any_text_is_taken_or_told(couple, timed, junk):
    shared(timed)
    for do in ("confirm", "say", "", junk):
        assert post(couple, do, name=junk, text=junk, number=junk, key=junk).status_code == 200
    assert couple.get(AGREED).status_code == 200


def test_another_language_keeps_what_was_typed_and_is_remembered(couple, timed):
    shared(timed)
    sent = Page(couple.get(AGREED)).fields | {"name": "Þóra", "text": "Nana sits left"}
    page = couple.post(AGREED, sent | {"do": "language-de"})
    assert page["Content-Language"] == "de"
    assert 'lang="de"' in page.content.decode()
    again = Page(page).fields
    assert (again["name"], again["text"]) == (["Þóra"], ["Nana sits left"])
    assert not MeetingPoint.objects.exists()
    assert couple.get(AGREED)["Content-Language"] == "de"
    assert couple.post(AGREED, sent | {"do": "language-xx"}, follow=True).status_code == 200


@pytest.mark.parametrize("language", ["en-gb", "de", "fr", "es", "pl"])
def test_the_same_summary_is_read_in_every_language_with_nothing_changed(couple, timed, language):
    """Its own words are the wedding's language; what is ours around them is the reader's."""
    Wedding.objects.update(language="de")
    timed.refresh_from_db()
    shared(timed)
    couple.post(f"{STEPS}language", {"language": language})
    page = couple.get(AGREED)
    assert f'<html lang="{language}"' in page.content.decode()
    assert page.context["stands"].since_shared == []
    assert "Niemand kann das Wetter" in said(page)
    title = {"en-gb": "Ceremony", "de": "Trauung", "fr": "Cérémonie", "es": "Ceremonia"}
    assert title.get(language, "Ceremonia") in said(page)
    page = post(couple, "confirm", name="Þóra Sigurðardóttir")
    assert Agreement.objects.get().confirmed_at is not None
    assert page.context["stands"].since_confirmed == []
