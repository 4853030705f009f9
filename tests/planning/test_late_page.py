"""How late are we: every plan in the page, and the exact one for who asks."""

import re
from datetime import UTC, date, datetime, time

import pytest

from intake.models import Day, Moment, Place
from planning.models import Drive, Hours
from tests.page import Page, said

PAGE = "/w/thora-lukasz/late"
AFTERNOON = datetime(2027, 6, 12, 13, 47, tzinfo=UTC)  # 14:47 in London


@pytest.fixture
def at(monkeypatch):
    """Sets the server's clock."""
    return lambda moment: monkeypatch.setattr("planning.late_views.now", lambda: moment)


def name_of(wedding, key="vows"):
    return f"{wedding.days.order_by('date').first().key}:{key}"


def ask(photographer, wedding, late, key="vows", **more):
    return photographer.get(PAGE, {"after": name_of(wedding, key), "late": late} | more)


def answer(response):
    found = re.search(r'<section id="answer".*?</section>', response.content.decode(), re.S)
    return " ".join(re.sub("<[^>]+>", " ", found[0]).split()) if found else ""


def test_every_end_has_its_five_latenesses_in_the_page(photographer, timed):
    page = photographer.get(PAGE).content.decode()
    ends = re.findall(r'<details class="ending".*?</details>', page, re.S)
    assert len(ends) > 8
    for end in ends:
        assert re.findall(r'data-late="(\d+)"', end) == ["0", "15", "30", "45", "60", "90"]
    vows = next(end for end in ends if f'data-name="{name_of(timed)}"' in end)
    assert "Dinner" not in vows  # nobody gave it a title
    assert "Meal at 17:00" in " ".join(re.sub("<[^>]+>", " ", vows).split()).replace(
        "Meal (eat something too)", "Meal"
    )


def test_the_end_of_a_block_is_an_instant_whatever_the_phones_own_zone_is(photographer, timed):
    page = photographer.get(PAGE).content.decode()
    vows = re.search(f'data-name="{name_of(timed)}" data-end="(\\d+)" data-ahead="(\\d+)"', page)
    assert int(vows[1]) == datetime(2027, 6, 12, 13, 25, tzinfo=UTC).timestamp()
    assert int(vows[2]) == 3600
    assert "Times are on the clocks of Europe/London." in said(photographer.get(PAGE))


def test_any_whole_minute_is_answered_exactly(photographer, timed):
    words = answer(ask(photographer, timed, 37))
    assert "15:02 37 minutes late" in words  # 14:25 and 37
    assert re.search(r"\d+ in 100", words)
    assert "In time" in answer(ask(photographer, timed, 0))
    assert "No cut reaches it: ask to move" in answer(ask(photographer, timed, 240))


@pytest.mark.parametrize("late", ["", "-1", "241", "2.5", "soon", "9" * 400, "٣٧x"])
def test_what_is_no_lateness_is_told_beside_its_box_and_kept(photographer, timed, late):
    response = ask(photographer, timed, late)
    assert response.status_code == 200
    assert answer(response) == ""
    assert response.context["late"].form.errors["late"]
    assert Page(response).fields["late"] == [late]


@pytest.mark.parametrize("after", ["", "nobody", "vows", "x:y", "'; --"])
def test_a_block_that_is_none_is_told_too(photographer, timed, after):
    response = photographer.get(PAGE, {"after": after, "late": "15"})
    assert response.status_code == 200
    assert response.context["late"].form.errors["after"]


def test_on_the_day_the_form_asks_about_what_should_be_ending(photographer, timed, at):
    at(AFTERNOON)
    response = photographer.get(PAGE)
    fields = Page(response).fields
    assert fields["after"] == [f"{timed.days.get().key}:{timed.days.get().key}-confetti"]
    assert fields["late"] == ["2"]  # 14:25 and 20 minutes
    assert "It is not today" not in said(response)


@pytest.mark.parametrize("day", [10, 14])
def test_before_and_after_the_day_that_is_said(photographer, timed, at, day):
    at(datetime(2027, 6, day, 13, tzinfo=UTC))
    response = photographer.get(PAGE)
    assert "It is not today" in said(response)
    assert Page(response).fields["late"] == [""]


def test_a_party_past_midnight_still_belongs_to_its_day(photographer, timed, at):
    Hours.objects.filter(day__wedding=timed).update(ends=time(1, 30))
    Moment.objects.create(
        wedding=timed, day=timed.days.get(), key="cab", kind="cake", at=time(0, 30)
    )
    at(datetime(2027, 6, 12, 23, 40, tzinfo=UTC))  # 00:40 in London
    assert "It is not today" not in said(photographer.get(PAGE))


def test_two_days_are_told_by_their_dates(photographer, timed):
    second = Day.objects.create(wedding=timed, date=date(2027, 6, 13))
    for kind, at in (("ceremony", time(11)), ("meal", time(14))):
        Moment.objects.create(wedding=timed, day=second, key=f"{kind}-2", kind=kind, at=at)
    page = photographer.get(PAGE)
    assert {"Saturday 12 June 2027", "Sunday 13 June 2027"} <= set(
        re.findall(r'<optgroup label="([^"]+)"', page.content.decode())
    )
    words = photographer.get(PAGE, {"after": f"{second.key}:ceremony-2", "late": "20"})
    assert "Meal" in answer(words)


def test_the_rain_has_a_page_of_its_own(photographer, timed):
    assert f"{PAGE}?rain=1" in Page(photographer.get(PAGE)).links
    wet = photographer.get(PAGE, {"rain": "1"})
    assert "in the rain" in said(wet)
    assert Page(wet).fields["rain"] == ["1"]
    assert "30 minutes late" in answer(ask(photographer, timed, 30, rain="1"))


def test_a_day_that_does_not_fit_is_told_and_leads_to_the_day(photographer, timed):
    Moment.objects.filter(key="dinner").update(at=time(14, 40))
    response = photographer.get(PAGE)
    assert "does not fit as it is planned" in said(response)
    assert f"/w/thora-lukasz/day#day-{timed.days.get().key}" in Page(response).links
    assert "What now?" not in said(response)


def test_a_drive_that_nobody_timed_is_told_and_leads_to_the_map(photographer, timed):
    Drive.objects.all().delete()
    hall = Place.objects.create(wedding=timed, key="hall", name="Hall")
    Moment.objects.filter(key="dinner").update(place=hall)
    response = photographer.get(PAGE)
    assert "Nobody has timed every drive" in said(response)
    assert "/w/thora-lukasz/map" in Page(response).links


def test_a_day_without_fixed_times_and_one_without_blocks_are_told(photographer, wedding):
    assert "No time is fixed in this day" in said(photographer.get(PAGE))
    Hours.objects.all().delete()
    assert "This day has no blocks yet" in said(photographer.get(PAGE))
    wedding.days.all().delete()
    assert "The wedding has no date yet" in said(photographer.get(PAGE))


def test_old_parameters_on_a_day_without_plans_break_nothing(photographer, wedding):
    assert photographer.get(PAGE, {"after": "x", "late": "15"}).status_code == 200


def test_what_couples_type_is_shown_as_text(photographer, timed):
    Moment.objects.filter(key="vows").update(title='"><script>alert(1)</script>')
    page = ask(photographer, timed, 15).content.decode()
    assert "<script>alert" not in page
    assert "&lt;script&gt;" in page
