"""A summary is shared once as it was read, confirmed once, and never written again."""

from datetime import time

import pytest
from django.utils.translation import override

from intake.models import CareNote, Contact, Moment, new_key
from planning.agreements import NotDoneError, confirm, object_to, share, standing, written
from planning.expect_words import CANNOT
from planning.models import Agreement, AnswerNote, MeetingPoint

from .agreed import agreed, plan_of, said_now, shared


def dance_at(wedding, hour, minute=0):
    Moment.objects.filter(wedding=wedding, kind="dance").update(at=time(hour, minute))


def whats(found):
    return [change.what for change in found]


def test_nothing_is_shared_at_first(timed):
    stands = standing(timed)
    assert (stands.shared, stands.confirmed, stands.waits) == (None, None, False)
    assert stands.since_confirmed == stands.since_shared == stands.news == []


def test_a_version_is_what_was_read_with_its_digest(timed):
    version = shared(timed)
    assert (version.number, version.confirmed_at) == (1, None)
    assert {"snapshot": version.snapshot, "digest": version.digest} == written(
        timed, plan_of(timed)
    )
    assert version.is_intact
    assert version.digest.startswith(version.fingerprint.replace(" ", ""))


def test_what_changed_after_it_was_read_is_not_shared(timed):
    seen = written(timed, plan_of(timed))["digest"]
    dance_at(timed, 21)
    with pytest.raises(NotDoneError, match="not what it was"):
        share(timed, seen)
    assert not Agreement.objects.exists()


def test_the_same_is_not_shared_twice(timed):
    shared(timed)
    with pytest.raises(NotDoneError, match="Version 1 says just this"):
        shared(timed)
    assert Agreement.objects.count() == 1


def test_a_confirmed_version_stays_and_later_changes_are_told_until_confirmed_again(timed):
    first = agreed(timed)
    dance_at(timed, 21)
    stands = standing(timed)
    assert (stands.confirmed, stands.waits) == (first, False)
    assert "time" in whats(stands.since_confirmed)
    second = shared(timed)
    stands = standing(timed)
    assert (stands.confirmed, stands.shared, stands.waits) == (first, second, True)
    assert stands.since_shared == []
    assert stands.news == stands.since_confirmed != []
    confirm(timed, "2", "Łukasz Wiśniewski")
    stands = standing(timed)
    assert stands.confirmed == second
    assert stands.since_confirmed == stands.news == []
    assert Agreement.objects.get(number=1).snapshot == first.snapshot
    assert [a.number for a in timed.agreements.all()] == [2, 1]


def test_a_change_that_is_taken_back_is_none(timed):
    agreed(timed)
    dance_at(timed, 21)
    dance_at(timed, 20, 30)
    assert standing(timed).since_confirmed == []


def test_both_sides_changes_count(timed):
    agreed(timed)
    timed.places.update(wet_plan="The cart shed")  # the couple's
    AnswerNote.objects.create(  # the photographer's
        wedding=timed, key="places.places.barn", about="Barn", text="No flash", for_couple=True
    )
    assert whats(standing(timed).since_confirmed) == ["wet_plan", "note"]


def test_whoever_comes_first_confirms(timed):
    version = agreed(timed, "Þóra")
    again = confirm(timed, "1", "Łukasz")
    assert (again.confirmed_by, again.confirmed_at) == ("Þóra", version.confirmed_at)


@pytest.mark.parametrize("number", ["1", "3", "", "x", "²"])
def test_only_the_newest_version_can_be_confirmed(timed, number):
    shared(timed)
    dance_at(timed, 21)
    shared(timed)
    with pytest.raises(NotDoneError, match="newer summary"):
        confirm(timed, number, "Þóra")
    assert not Agreement.objects.exclude(confirmed_at=None).exists()


@pytest.mark.parametrize("change", [{"snapshot": "{}"}, {"digest": "0" * 64}])
def test_a_version_that_was_tampered_with_is_told_and_not_confirmed(timed, change):
    shared(timed)
    Agreement.objects.update(**change)
    stands = standing(timed)
    assert [each.number for each in stands.broken] == [1]
    assert stands.since_shared == []
    with pytest.raises(NotDoneError, match="not the text"):
        confirm(timed, "1", "Þóra")


def test_one_letter_is_enough(timed):
    version = agreed(timed)
    Agreement.objects.update(snapshot=version.snapshot.replace("20:30", "20:35"))
    assert standing(timed).broken


def test_a_broken_version_can_be_shared_again(timed):
    shared(timed)
    Agreement.objects.update(digest="0" * 64)
    assert shared(timed).number == 2
    assert not standing(timed).broken


def test_only_what_is_ticked_of_the_notes_is_said(timed):
    for key, ticked in (("day.days.d", True), ("care.carenotes.c", False)):
        AnswerNote.objects.create(wedding=timed, key=key, text=f"of {key}", for_couple=ticked)
    timed.meeting_points.create(key="a", text="Sparklers?", note="No", for_couple=True)
    timed.meeting_points.create(key="b", text="They quarrel", note="Apart")
    notes = said_now(timed).notes
    assert [(n.about, n.text) for n in notes] == [("", "of day.days.d"), ("Sparklers?", "No")]


def test_least_data(timed):
    Contact.objects.create(
        wedding=timed, key="c", listed_as="contact", name="Ragnar Sæmundsson", phone="07700 900112"
    )
    CareNote.objects.create(wedding=timed, key="n", person="Amma", kind="seat", note="her hip")
    timed.partners.update(phone="07700 900111", email="them@example.org")
    timed.places.update(coordinator="Marguerite", coordinator_phone="01632 960131")
    text = shared(timed).snapshot
    for private in ("07700", "01632", "example.org", "hip", "Amma", "Ragnar", "Marguerite"):
        assert private not in text


def test_an_objection_sent_twice_is_one_open_point(timed):
    shared(timed)
    key = new_key()
    for _again in range(2):
        object_to(timed, "1", key, "Nana sits at the left")
    (point,) = timed.meeting_points.all()
    assert (point.by, point.text, point.settled) == ("couple", "Nana sits at the left", False)
    assert point.agreement.number == 1


def test_a_wedding_that_is_erased_takes_all_of_it_along(timed):
    agreed(timed)
    object_to(timed, "1", "k", "No")
    AnswerNote.objects.create(wedding=timed, key="day.days.d", text="x")
    timed.delete()
    assert not any(m.objects.exists() for m in (Agreement, AnswerNote, MeetingPoint))


def test_our_own_words_are_kept_in_the_couples_language(timed):
    timed.answer_notes.create(key="day.days.x", about="Saturday", text="Früh da", for_couple=True)
    day = timed.days.get()
    timed.answer_notes.update(key=f"day.days.{day.key}")
    type(timed).objects.update(language="de")
    timed.refresh_from_db()
    with override("de"):
        cannot, date = str(CANNOT), str(day)
    said = said_now(timed)
    assert said.spoken.text == cannot
    assert [note.about for note in said.notes] == [date]
    assert date == "Samstag, 12. Juni 2027"
