"""The Meeting: everything typed is kept whatever is pressed, and two devices lose nothing."""

import pytest

from intake.models import CareNote, Group, Moment, Place
from planning.models import Agreement, AnswerNote, MeetingPoint
from tests.page import Page, fields, said

from .agreed import agreed, shared

MEETING = "/w/thora-lukasz/meeting"
VOWS = "day.moments.vows"
BARN = "places.places.barn"


def post(client, sent, do="keep", **typed):
    """Press a button of a page whose form would send `sent`."""
    return client.post(MEETING, sent | {"do": do} | typed, follow=True)


def note(wedding, key=VOWS):
    return AnswerNote.objects.filter(wedding=wedding, key=key).values().first()


def test_every_answer_is_there_with_room_for_a_note(photographer, timed):
    page = Page(photographer.get(MEETING))
    for key in (VOWS, BARN, "day.moments.dinner"):
        assert f"{key}-text" in page.fields
    assert "Orchard Barn" in page.words
    assert not AnswerNote.objects.exists()  # nothing is made by looking


def test_a_note_is_kept_with_its_ticks(photographer, timed):
    sent = fields(photographer, MEETING)
    typed = {
        f"{VOWS}-text": "No flash\r\nplease",
        f"{VOWS}-settled": "on",
        f"{VOWS}-for_couple": "on",
    }
    response = post(photographer, sent, "step:day", **typed)
    assert "Kept: The day." in said(response)
    assert response.redirect_chain[0][0].endswith("#step-day")
    kept = note(timed)
    assert (kept["text"], kept["settled"], kept["for_couple"]) == ("No flash\nplease", True, True)
    assert kept["about"] == "Ceremony"
    assert AnswerNote.objects.count() == 1
    again = fields(photographer, MEETING)
    assert again[f"{VOWS}-settled"] == ["on"]
    assert "1 of 4 settled" in said(photographer.get(MEETING))


@pytest.mark.parametrize("do", ["", "keep", "points", "step:places", "share", "nonsense", "drop:x"])
def test_whatever_is_pressed_all_that_was_typed_is_kept(photographer, timed, do):
    sent = fields(photographer, MEETING)
    post(photographer, sent, do, **{f"{VOWS}-text": "gallery", "new-text": "Sparklers?"})
    assert note(timed)["text"] == "gallery"
    assert [point.text for point in MeetingPoint.objects.all()] == ["Sparklers?"]


def test_pressed_twice_a_point_is_added_once(photographer, timed):
    sent = fields(photographer, MEETING)
    for _again in range(2):
        post(photographer, sent, "points", **{"new-text": "Sparklers?"})
    assert MeetingPoint.objects.count() == 1


def test_a_note_that_is_emptied_leaves_nothing_behind(photographer, timed):
    post(photographer, fields(photographer, MEETING), **{f"{VOWS}-text": "x"})
    post(photographer, fields(photographer, MEETING), **{f"{VOWS}-text": "  "})
    assert not AnswerNote.objects.exists()


def test_an_answer_that_changes_is_open_again(photographer, timed):
    post(photographer, fields(photographer, MEETING), **{f"{VOWS}-settled": "on"})
    Moment.objects.filter(key="vows").update(at="14:30")
    page = photographer.get(MEETING)
    assert f"{VOWS}-settled" not in Page(page).fields
    assert "Changed since it was settled" in said(page)
    post(photographer, Page(page).fields, **{f"{VOWS}-settled": "on"})
    assert "Changed since it was settled" not in said(photographer.get(MEETING))


def test_nobody_settles_an_answer_that_they_have_not_seen(photographer, timed):
    sent = fields(photographer, MEETING)
    Moment.objects.filter(key="vows").update(at="14:30")
    typed = {f"{VOWS}-settled": "on", f"{VOWS}-text": "typed", f"{BARN}-text": "also"}
    page = post(photographer, sent, **typed)
    assert "Error:" in page.content.decode()
    assert "The answer changed after you opened the page" in said(page)
    assert f"#{VOWS}-settled" in Page(page).links
    assert Page(page).fields[f"{VOWS}-text"] == ["typed"]
    assert Page(page).fields[f"{BARN}-text"] == ["also"]
    assert not AnswerNote.objects.exists()
    post(photographer, Page(page).fields)  # read, and pressed again
    assert note(timed)["settled"]


def test_two_devices_keep_both_their_notes(photographer, timed):
    one, other = (fields(photographer, MEETING) for _ in range(2))
    post(photographer, one, **{f"{VOWS}-text": "from the tablet"})
    page = post(photographer, other, **{f"{BARN}-text": "from the laptop"})
    assert note(timed)["text"] == "from the tablet"
    assert note(timed, BARN)["text"] == "from the laptop"
    assert "changed on another phone or computer meanwhile: Ceremony (Note)." in said(page)


def test_where_both_wrote_one_note_they_are_asked(photographer, timed):
    one, other = (fields(photographer, MEETING) for _ in range(2))
    post(photographer, one, **{f"{VOWS}-text": "no flash"})
    page = post(photographer, other, **{f"{VOWS}-text": "gallery", f"{BARN}-text": "stays"})
    assert "was changed after you opened the page" in said(page)
    assert "no flash" in said(page)
    again = Page(page).fields
    assert again[f"{VOWS}-text"] == ["gallery"]
    assert again[f"{BARN}-text"] == ["stays"]
    assert note(timed)["text"] == "no flash"
    pick = f'name="{VOWS}-text_pick" id="id_{VOWS}-text_pick_both" value="'
    value = page.content.decode().split(pick)[1].split('"')[0]
    post(photographer, again, **{f"{VOWS}-text_pick": value})
    assert note(timed)["text"] == "no flash\ngallery"
    assert note(timed, BARN)["text"] == "stays"


def test_a_tick_for_the_couple_needs_words(photographer, timed):
    page = post(photographer, fields(photographer, MEETING), **{f"{VOWS}-for_couple": "on"})
    assert "Write what goes into the summary, or untick it." in said(page)
    assert f"#{VOWS}-text" in Page(page).links


def test_a_note_that_is_too_long_stays_in_its_box(photographer, timed):
    long = "x" * 2001
    page = post(photographer, fields(photographer, MEETING), **{f"{VOWS}-text": long})
    assert "Shorten this to 2000 characters; it has 2001." in said(page)
    assert Page(page).fields[f"{VOWS}-text"] == [long]


def test_a_note_on_an_answer_that_is_gone_is_still_there(photographer, timed):
    post(photographer, fields(photographer, MEETING), **{f"{VOWS}-text": "gallery"})
    sent = fields(photographer, MEETING)
    Moment.objects.filter(key="vows").delete()
    words = said(photographer.get(MEETING))
    assert "Notes on what is no longer in the answers" in words
    post(photographer, sent, **{f"{VOWS}-text": "gallery, still"})
    assert note(timed)["text"] == "gallery, still"
    assert note(timed)["about"] == "Ceremony"


def test_a_note_typed_while_the_answer_went_is_kept(photographer, timed):
    sent = fields(photographer, MEETING)
    Moment.objects.filter(key="vows").delete()
    post(photographer, sent, **{f"{VOWS}-text": "typed meanwhile"})
    assert note(timed)["text"] == "typed meanwhile"
    assert "typed meanwhile" in Page(photographer.get(MEETING)).fields[f"{VOWS}-text"]


@pytest.mark.parametrize("name", ["x-text", "day.moments-text", "../../etc-text", "day.a.b.c-text"])
def test_forged_boxes_do_no_harm(photographer, timed, name):
    response = post(photographer, fields(photographer, MEETING), **{name: "forged"})
    assert response.status_code == 200
    assert AnswerNote.objects.count() <= 1


def test_a_point_is_noted_settled_opened_and_removed(photographer, timed):
    point = MeetingPoint.objects.create(wedding=timed, key="k", text="Sparklers?")
    sent = fields(photographer, MEETING)
    post(photographer, sent, "points", **{"point.k-note": "No", "point.k-settled": "on"})
    point.refresh_from_db()
    assert (point.note, point.settled) == ("No", True)
    assert "1 point is settled" in said(photographer.get(MEETING))
    post(photographer, fields(photographer, MEETING), "drop:k")
    assert not MeetingPoint.objects.exists()


def test_a_point_needs_words(photographer, timed):
    MeetingPoint.objects.create(wedding=timed, key="k", text="Sparklers?")
    page = post(photographer, fields(photographer, MEETING), **{"point.k-text": " "})
    assert "#point.k-text" in Page(page).links
    assert MeetingPoint.objects.get().text == "Sparklers?"


def test_a_point_that_changed_elsewhere_is_not_removed_unread(photographer, timed):
    MeetingPoint.objects.create(wedding=timed, key="k", text="Sparklers?")
    sent = fields(photographer, MEETING)
    MeetingPoint.objects.update(note="The venue says yes")
    page = post(photographer, sent, "drop:k")
    assert "It was changed after you opened the page" in said(page)
    assert MeetingPoint.objects.exists()
    post(photographer, Page(page).fields, "drop:k")
    assert not MeetingPoint.objects.exists()


def test_a_point_removed_elsewhere_comes_back_only_if_it_was_changed_here(photographer, timed):
    MeetingPoint.objects.create(wedding=timed, key="k", text="Sparklers?")
    sent = fields(photographer, MEETING)
    MeetingPoint.objects.all().delete()
    post(photographer, sent)
    assert not MeetingPoint.objects.exists()
    page = post(photographer, sent, **{"point.k-text": "Sparklers, and where?"})
    assert MeetingPoint.objects.get().text == "Sparklers, and where?"
    assert "Removed elsewhere meanwhile" in said(page)


def test_what_the_couple_said_stays_in_their_words(photographer, timed):
    shared(timed)
    MeetingPoint.objects.create(
        wedding=timed,
        key="k",
        text="Nana sits left",
        by="couple",
        agreement=Agreement.objects.get(),
    )
    page = photographer.get(MEETING)
    assert "of version 1:" in said(page)
    sent = Page(page).fields
    post(photographer, sent, "drop:k", **{"point.k-text": "Nana is fine", "point.k-note": "Done"})
    point = MeetingPoint.objects.get()
    assert (point.text, point.note) == ("Nana sits left", "Done")


def test_open_points_come_first_and_say_what_is_open(photographer, timed):
    Moment.objects.create(wedding=timed, key="cake", kind="cake", unknown=True)
    timed.days.get().hours.delete()
    words = said(photographer.get(MEETING))
    open_part = words.split("Still open")[1].split("Keep the notes")[0]
    for part in (
        "There is no phone number for either partner.",
        "Orchard Barn: where to go if it rains?",
        "Places: not started",
        "Cake: the couple do not know the time yet",
        "Saturday 12 June 2027: your hours are not settled",
    ):
        assert part in open_part


def test_a_draft_of_the_couple_is_told(photographer, timed):
    timed.steps.create(slug="people", draft={"helpers-0-name": ["Rag"]})
    assert "People: begun, not kept yet" in said(photographer.get(MEETING))


def test_the_page_says_what_they_may_expect(photographer, timed):
    Group.objects.create(wedding=timed, key="g", title="Cousins", people="Ana\nBo", wish="must")
    words = said(photographer.get(MEETING)).split("What they may expect")[2]
    assert "1 group takes" in words
    assert "The day has" in words
    assert "before 17:00 (Meal)" in words
    assert "Nobody can promise the weather" in words
    assert "in 100" in words


def test_sharing_gives_the_couple_what_was_read(photographer, timed, couple):
    page = post(photographer, fields(photographer, MEETING), "share")
    assert "Shared: version 1." in said(page)
    assert "please read and confirm" in said(couple.get("/q/thora-lukasz/"))
    page = post(photographer, fields(photographer, MEETING), "share")
    assert "Version 1 says just this already" in said(page)
    assert Agreement.objects.count() == 1


def test_a_note_typed_at_the_last_moment_is_read_before_it_is_shared(photographer, timed):
    sent = fields(photographer, MEETING)
    typed = {f"{VOWS}-text": "No flash", f"{VOWS}-for_couple": "on"}
    page = post(photographer, sent, "share", **typed)
    assert "The summary is not what it was when you opened the page" in said(page)
    assert note(timed)["text"] == "No flash"
    assert not Agreement.objects.exists()
    post(photographer, Page(page).fields, "share")
    assert "No flash" in Agreement.objects.get().snapshot


def test_changes_since_it_was_agreed_are_told_here_in_papers_and_nowhere_hidden(
    photographer, timed
):
    agreed(timed)
    Place.objects.update(wet_plan="The cart shed")
    words = said(photographer.get(MEETING))
    assert "Changed since it was agreed" in words
    assert "Orchard Barn, if it rains: now The cart shed" in words
    assert ", 1 change since." in words
    assert ", 1 change since." in said(photographer.get("/w/thora-lukasz/papers"))


def test_a_tampered_agreement_is_told(photographer, timed):
    agreed(timed)
    Agreement.objects.update(snapshot="{}")
    words = said(photographer.get(MEETING))
    assert "Version 1 is not what was shared" in words
    assert "what is kept is not what was shared" in said(photographer.get("/w/thora-lukasz/papers"))


def test_names_are_shown_and_never_run(photographer, timed):
    MeetingPoint.objects.create(wedding=timed, key="k", text="<script>alert(1)</script>")
    CareNote.objects.create(wedding=timed, key="c", person="<b>Amma</b>", kind="seat")
    html = photographer.get(MEETING).content.decode()
    assert "<script>alert" not in html
    assert "<b>Amma" not in html


def test_a_wedding_with_nothing_in_it_has_its_meeting(photographer, wedding):
    wedding.days.all().delete()
    response = photographer.get(MEETING)
    assert response.status_code == 200
    assert post(photographer, Page(response).fields, "share").status_code == 200
