"""The photographer's reading of the answers: everything on one screen, and what to settle."""

import time as clock
from datetime import date, time

from django.db import connection
from django.test.utils import CaptureQueriesContext

from intake.models import CareNote, Contact, Day, Group, Moment, MustHave, Place
from intake.steps import STEPS
from tests.page import Page, said

ANSWERS = "/w/thora-lukasz/answers"
PAGES = ("answers", "groups", "light", "day", "papers")


def fill(wedding):
    day = wedding.days.get()
    place = Place.objects.create(wedding=wedding, key="mill", name="Mäkelä’s Mill")
    Moment.objects.create(
        wedding=wedding, key="c", kind="ceremony", at=time(14), day=day, place=place
    )
    Group.objects.create(wedding=wedding, key="g", title="Parents", people="Jarmila\nBohumil")
    Contact.objects.create(wedding=wedding, key="h", listed_as="helper", name="Šimon Dvořák")
    MustHave.objects.create(wedding=wedding, key="m", text="The watch on my wrist")
    CareNote.objects.create(wedding=wedding, key="n", person="Oma", kind="seat")


def test_everything_the_couple_said_is_on_one_screen(photographer, wedding):
    fill(wedding)
    words = said(photographer.get(ANSWERS))
    for part in (
        "Saturday 12 June 2027",
        "not sent yet",
        "Mäkelä’s Mill",
        "14:00",
        "Jarmila, Bohumil",
        "Šimon Dvořák",
        "The watch on my wrist",
        "cannot stand long",
    ):
        assert part in words


def test_every_step_can_be_settled_from_here(photographer, wedding):
    links = Page(photographer.get(ANSWERS)).links
    for step in STEPS:
        address = f"/q/thora-lukasz/step/{step.slug}?from=answers"
        assert address in links
        assert photographer.get(address).status_code == 200


def test_what_is_missing_and_what_contradicts_is_told_with_where_to_settle_it(
    photographer, wedding
):
    fill(wedding)
    CareNote.objects.create(
        wedding=wedding, key="a", person="Jarmila", kind="apart", other="Bohumil"
    )
    response = photographer.get(ANSWERS)
    words = said(response)
    assert "Jarmila and Bohumil must not share a frame" in words
    assert "There is no phone number for either partner." in words
    assert "Mäkelä’s Mill has no coordinates" in words
    assert "/w/thora-lukasz/map" in Page(response).links


def test_a_day_with_no_ceremony_works_on_every_page(photographer, wedding):
    assert "No ceremony is listed" in said(photographer.get(ANSWERS))
    for kinds in ((), ("party",)):
        for kind in kinds:
            wedding.moments.create(kind=kind, at=time(19), day=wedding.days.get())
        for page in PAGES:
            assert photographer.get(f"/w/thora-lukasz/{page}").status_code == 200
    assert "No ceremony is listed" not in said(photographer.get(ANSWERS))
    assert "Party" in said(photographer.get("/w/thora-lukasz/day"))


def test_a_wedding_of_many_days_works_on_every_page(photographer, wedding):
    fill(wedding)
    for number in range(13, 20):
        day = Day.objects.create(wedding=wedding, date=date(2027, 6, number), key=f"d{number}")
        Moment.objects.create(wedding=wedding, kind="meal", at=time(12), day=day, key=f"m{number}")
    for page in PAGES:
        assert photographer.get(f"/w/thora-lukasz/{page}").status_code == 200


def test_names_of_every_script_and_marks_of_no_script_are_shown_as_typed(photographer, wedding):
    people = "\u202bנעמי לוי\u202c\nليلى\u200f منصور\n👩‍👩‍👧 Zoë"
    people += "\n<script>alert(1)</script>\n%(x)s %s {{ y }}"
    Group.objects.create(wedding=wedding, key="g", title="100% %s “all”", people=people)
    Place.objects.create(wedding=wedding, key="p", name="50% %(place)s <b>Barn</b>")
    Moment.objects.create(
        wedding=wedding, key="o", kind="other", title="%(place)s 5%", at=time(15), unknown=False
    )
    for page in PAGES:
        content = photographer.get(f"/w/thora-lukasz/{page}").content.decode()
        assert "<script>alert" not in content
        assert "<b>Barn</b>" not in content
    words = said(photographer.get("/w/thora-lukasz/groups"))
    assert "100% %s “all”" in words
    assert "👩‍👩‍👧 Zoë" in words


def test_a_group_of_three_hundred_names_is_read_in_a_moment(photographer, wedding):
    """A page that hangs fails; it is no measurement of speed."""
    names = "\n".join(f"Guest {number} Žáček" for number in range(300))
    Group.objects.create(wedding=wedding, key="g", title="All", people=names)
    started = clock.monotonic()
    for page in PAGES:
        assert photographer.get(f"/w/thora-lukasz/{page}").status_code == 200
    assert clock.monotonic() - started < 60


def test_many_rows_ask_no_more_of_the_database_than_few(photographer, wedding):
    def asked():
        with CaptureQueriesContext(connection) as queries:
            photographer.get(ANSWERS)
        return len(queries)

    fill(wedding)
    few = asked()
    day, place = wedding.days.get(), wedding.places.get()
    for n in range(20):
        Group.objects.create(wedding=wedding, key=f"g{n}", title=f"Group {n}", people="Ada")
        Moment.objects.create(
            wedding=wedding, key=f"m{n}", kind="other", at=time(15, n), day=day, place=place
        )
    assert asked() == few


def test_what_was_sent_and_when_is_told(photographer, couple, wedding):
    couple.post("/q/thora-lukasz/read-through")
    assert "sent on" in said(photographer.get(ANSWERS))


def test_pages_that_only_show_take_nothing(photographer, wedding):
    for page in ("light", "late", "papers", "day-pack.pdf", "calendar.ics"):
        for method in ("post", "put", "delete", "patch"):
            assert getattr(photographer, method)(f"/w/thora-lukasz/{page}").status_code == 405


def test_a_wedding_that_is_not_there_is_told_calmly(photographer):
    response = photographer.get("/w/nobody/answers")
    assert response.status_code == 404
    assert "Nothing is here" in said(response)
