"""The studio's own lines of the ready list, for every wedding or for one."""

import pytest

from planning.models import ReadyItem
from planning.ready_item_form import MOST_ITEMS
from planning.ready_models import MOST_DAYS
from tests.page import Page, fields, said

EVERY, HERE = "/ready-lines", "/w/thora-lukasz/ready/lines"
READY = "/w/thora-lukasz/ready"
TYPED = {
    "lines-0-title": "100 % of the gifts wrapped",
    "lines-0-when": "before",
    "lines-0-days": "4",
}
both = pytest.mark.parametrize("page", [EVERY, HERE])


def press(client, page, **typed):
    return client.post(page, fields(client, page) | typed)


@both
def test_a_line_is_kept_and_stands_on_the_list(photographer, wedding, page):
    assert press(photographer, page, **TYPED).status_code == 302
    item = ReadyItem.objects.get()
    assert item.wedding == (wedding if page == HERE else None)
    assert "100 % of the gifts wrapped" in said(photographer.get(READY))
    photographer.post(READY, {"do": f"done:own-{item.key}"})
    assert wedding.ready_ticks.get().key == f"own-{item.key}"


def test_a_line_of_one_wedding_is_on_no_other_list(photographer, wedding, other):
    press(photographer, HERE, **TYPED)
    assert "gifts wrapped" not in said(photographer.get("/w/wanjiru-odon/ready"))
    assert "gifts wrapped" not in said(photographer.get(EVERY))


def test_a_line_of_each_day_has_its_evening_and_its_clock_time(photographer, wedding):
    more = {"lines-0-when": "evening", "lines-0-days": "", "lines-0-at": "19.30"}
    press(photographer, EVERY, **TYPED | more)
    assert "by 19:30" in said(photographer.get(READY))
    assert (
        f"line-own-{ReadyItem.objects.get().key}.{wedding.days.get().key}"
        in Page(photographer.get(READY)).ids
    )


@both
@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("title", "", "enter something here"),
        ("title", "x" * 121, "Shorten this to 120 characters"),
        ("why", "x" * 301, "Shorten this to 300 characters"),
        ("days", "", "How many days before the wedding? 0 is its first day."),
        ("days", "-1", f"enter a number from 0 to {MOST_DAYS}"),
        ("days", "40000", f"enter a number from 0 to {MOST_DAYS}"),
        ("days", "soon", f"enter a number from 0 to {MOST_DAYS}"),
        ("at", "26:00", "Enter a time like 14:30"),
    ],
)
def test_what_cannot_be_is_told_beside_its_box(photographer, wedding, page, field, typed, words):
    response = press(
        photographer, page, **TYPED | {"lines-0-why": "why"} | {f"lines-0-{field}": typed}
    )
    assert response.status_code == 200
    assert words in said(response)
    assert f"#id_lines-0-{field}" in Page(response).links
    assert Page(response).fields[f"lines-0-{field}"] == [typed]
    assert not ReadyItem.objects.exists()


def test_five_hundred_lines_are_told_in_one_line(photographer):
    rows = {f"lines-{n}-{name[8:]}": value for n in range(500) for name, value in TYPED.items()}
    response = photographer.post(EVERY, rows)
    assert f"{MOST_ITEMS} rows are the most" in said(response)
    assert not ReadyItem.objects.exists()


def test_a_key_of_another_weddings_line_makes_a_new_one(photographer, wedding, other):
    theirs = ReadyItem.objects.create(wedding=other, key="theirs", title="Theirs")
    press(photographer, HERE, **TYPED | {"lines-0-key": "theirs"})
    theirs.refresh_from_db()
    assert (theirs.title, theirs.wedding) == ("Theirs", other)
    assert ReadyItem.objects.get(wedding=wedding).title == TYPED["lines-0-title"]


def test_a_line_is_removed_and_its_ticks_stay(photographer, wedding):
    press(photographer, EVERY, **TYPED)
    photographer.post(READY, {"do": f"done:own-{ReadyItem.objects.get().key}"})
    press(photographer, EVERY, **{"lines-0-DELETE": "on"})
    assert "gifts wrapped" not in said(photographer.get(READY))
    assert wedding.ready_ticks.count() == 1


def test_one_more_row_is_asked_for_without_scripts(photographer):
    response = press(photographer, EVERY, do="add-lines", **TYPED)
    assert "lines-1-title" in Page(response).fields
    assert Page(response).fields["lines-0-title"] == [TYPED["lines-0-title"]]
