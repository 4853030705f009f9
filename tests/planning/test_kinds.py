"""Kinds of day: the built-in ones, and the studio's own copies of them."""

from dataclasses import replace

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from planning.brief import load_brief
from planning.brief_kinds import own_blocks
from planning.compute.blocks import STYLES
from planning.compute.day import plan_wedding
from planning.kinds import copy_kind
from planning.models import Decisions, KindBlock, KindOfDay
from tests.page import Page, fields, said

OWN = "own-0a1b2c3d4e5f"
URL = f"/kinds/{OWN}"
COUNT = len(STYLES["one_place"].blocks)
FEW = ("ready", "arrivals", "ceremony", "details", "meal_call", "meal", "golden", "cake", "dance")


@pytest.fixture
def own(db):
    """A copy of the day at one place."""
    return copy_kind("one_place", OWN)


@pytest.fixture
def page(photographer, own):
    """What the form of the copy would send."""
    return fields(photographer, URL)


def row_of(page, key):
    """The prefix of the row with that key."""
    return next(n.removesuffix("-key") for n, v in page.items() if n.endswith("-key") and key in v)


def with_row(page, key, **typed):
    """The page with other typing in the row of a key."""
    row = row_of(page, key)
    return page | {f"{row}-{name}": value for name, value in typed.items()}


def keys_of(page):
    count = int(page["blocks-TOTAL_FORMS"][0])
    return [page[f"blocks-{n}-key"][0] for n in range(count)]


def kept_keys():
    return [block.key for block in own_blocks(OWN)]


def stored():
    return [list(model.objects.values()) for model in (KindOfDay, KindBlock)]


# The built-in ones


def test_the_list_has_the_built_in_kinds_and_says_how_many_weddings_use_each(
    photographer, wedding, own
):
    Decisions.objects.update(style=OWN)
    words = said(photographer.get("/kinds"))
    for style in STYLES.values():
        assert style.title in words
    assert f"One place, civil ceremony, our own{COUNT}1" in words.replace(" 1", "1")


def test_the_list_asks_the_database_as_often_with_many_kinds(photographer):
    counts = []
    for number in range(3):
        copy_kind("small", f"own-{number:012x}")
        with CaptureQueriesContext(connection) as queries:
            photographer.get("/kinds")
        counts.append(len(queries))
    assert len(set(counts)) == 1


@pytest.mark.parametrize("key", STYLES)
def test_a_built_in_kind_opens_as_a_table_of_its_blocks(photographer, key):
    response = photographer.get(f"/kinds/{key}")
    html = response.content.decode()
    for block in STYLES[key].blocks:
        assert block.title.replace("'", "&#x27;") in html
        if block.kind != "groups":
            assert f'likely">{block.minutes[1]}</td>' in html
    assert "from the list of groups" in html
    assert said(response).count("common practice, no source") == 1


@pytest.mark.parametrize("key", ["gone", "own-000000000000", "one_place2"])
def test_a_kind_that_is_none_is_told_calmly(photographer, key):
    assert photographer.get(f"/kinds/{key}").status_code == 404
    assert photographer.post(f"/kinds/{key}", {"do": "copy"}).status_code == 404
    assert photographer.get(f"/kinds/{key}/remove").status_code == 404


@pytest.mark.parametrize("key", STYLES)
def test_a_copy_says_what_the_built_in_kind_says_and_lays_a_day_out_alike(wedding, key):
    copy_kind(key, OWN)
    assert [replace(b, key="") for b in own_blocks(OWN)] == list(STYLES[key].blocks)
    Decisions.objects.update(style=key)
    before = plan_wedding(load_brief(wedding)).days
    Decisions.objects.update(style=OWN)
    assert before[0].blocks
    assert plan_wedding(load_brief(wedding)).days == before


def test_changing_a_built_in_kind_makes_one_copy_however_often_it_is_clicked(photographer):
    copying = fields(photographer, "/kinds/winter") | {"do": "copy"}
    for _ in range(2):
        response = photographer.post("/kinds/winter", copying)
        assert response["Location"] == f"/kinds/{KindOfDay.objects.get().key}"
    assert KindBlock.objects.count() == len(STYLES["winter"].blocks)
    photographer.post("/kinds/winter", fields(photographer, "/kinds/winter") | {"do": "copy"})
    assert KindOfDay.objects.count() == 2


@pytest.mark.parametrize("new", ["", "one_place", "own-x", "own-0a1b2c3d4e5f6", "\0"])
def test_a_forged_key_of_a_copy_is_not_taken(photographer, new):
    assert photographer.post("/kinds/small", {"do": "copy", "new": new}).status_code == 302
    assert KindOfDay.objects.get().key != new


def test_a_copy_of_a_long_name_fits(photographer, own):
    KindOfDay.objects.update(title="ن" * 80)
    photographer.post(URL, fields(photographer, URL) | {"do": "copy"})
    assert [len(kind.title) for kind in KindOfDay.objects.all()] == [80, 80]


# Changing one's own


@pytest.mark.parametrize("key", STYLES)
def test_keeping_a_copy_unchanged_changes_nothing(photographer, key):
    copy_kind(key, OWN)
    before = stored()
    assert photographer.post(URL, fields(photographer, URL))["Location"] == URL
    assert stored() == before


def test_a_kind_is_renamed_and_its_lengths_change_in_the_plan(photographer, wedding, page):
    Decisions.objects.update(style=OWN)
    typed = with_row(page, "ceremony", least="30", likely="50", most="80", title="Nikah")
    assert photographer.post(URL, typed | {"kind-title": "يوم واحد"}).status_code == 302
    assert KindOfDay.objects.get().title == "يوم واحد"
    (day,) = plan_wedding(load_brief(wedding)).days
    assert [b.minutes for b in day.blocks if b.title == "Nikah"] == [50]


def test_everything_about_a_block_is_kept(photographer, page):
    typed = with_row(
        page, "portraits", title="Two at the lake", kind="portraits", least="20", likely="40",
        most="70", use="next", moment="", leads="drinks", fills="on", once="", short="15",
        droppable="on", importance="9", delay_least="0", delay_likely="5", delay_most="12",
        wet_least="10", wet_likely="20", wet_most="30",
    )  # fmt: skip
    row = row_of(page, "portraits")
    del typed[f"{row}-once"], typed[f"{row}-movable"]
    assert photographer.post(URL, typed).status_code == 302
    block = next(b for b in own_blocks(OWN) if b.key == "portraits")
    assert block == replace(
        block, title="Two at the lake", minutes=(20, 40, 70), use="next", leads="drinks",
        fills=True, once=False, short=15, droppable=True, importance=9, delay=(0, 5, 12),
        movable=False, wet=(10, 20, 30),
    )  # fmt: skip
    words = said(photographer.get(URL))
    assert "ends when “Drinks” begins; takes what time is left; short form 15 min" in words


def test_a_block_may_go_when_it_rains(photographer, page):
    assert photographer.post(URL, with_row(page, "cake", wet_left_out="on")).status_code == 302
    assert next(b for b in own_blocks(OWN) if b.key == "cake").wet == (0, 0, 0)


def test_the_minutes_of_the_groups_are_never_typed(photographer, page):
    row = row_of(page, "groups")
    assert f"{row}-likely" not in page
    assert "from the list of groups" in said(photographer.get(URL))
    typed = with_row(page, "groups", least="x", likely="99", most="1", short="5", wet_least="3")
    assert photographer.post(URL, typed).status_code == 302
    block = next(b for b in own_blocks(OWN) if b.key == "groups")
    assert (block.minutes, block.short, block.wet) == ((0, 0, 0), None, None)


def test_a_block_that_no_longer_is_the_groups_needs_minutes_and_is_given_boxes(photographer, page):
    response = photographer.post(URL, with_row(page, "groups", kind="other"))
    row = row_of(page, "groups")
    assert "Likely: enter something here." in said(response)
    assert f"{row}-likely" in Page(response).fields


def test_a_block_is_added_at_the_end_or_after_another_and_kept_there(photographer, page):
    page = Page(photographer.post(URL, page | {"do": "add-blocks"})).fields
    assert page[f"blocks-{COUNT}-importance"] == ["5"]
    last = f"blocks-{COUNT}"
    page |= {f"{last}-title": "Fireworks", f"{last}-least": "5"}
    page |= {f"{last}-likely": "10", f"{last}-most": "15"}
    after = row_of(page, "ceremony")
    page = Page(photographer.post(URL, page | {"do": f"after:{after}"})).fields
    new = row_of(page, keys_of(page)[keys_of(page).index("ceremony") + 1])
    typed = {"title": "Signing", "least": "5", "likely": "10", "most": "15", "use": "previous"}
    page |= {f"{new}-{name}": value for name, value in typed.items()}
    assert photographer.post(URL, page).status_code == 302
    titles = [block.title for block in own_blocks(OWN)]
    assert titles[titles.index("Ceremony") + 1] == "Signing"
    assert titles[-1] == "Fireworks"
    assert len(titles) == COUNT + 2


def test_an_empty_row_is_no_block(photographer, page):
    page = Page(photographer.post(URL, page | {"do": "add-blocks"})).fields
    assert photographer.post(URL, page).status_code == 302
    assert len(kept_keys()) == COUNT


def test_a_block_moves_earlier_and_later_with_what_was_typed_in_it(photographer, page):
    before = stored()
    typed = with_row(page, "cake", title="Pie", likely="wrong")
    response = photographer.post(URL, typed | {"do": f"earlier:{row_of(page, 'cake')}"})
    moved = Page(response)
    assert stored() == before
    assert "Not kept yet" in moved.words
    assert "mending" not in moved.words
    row = row_of(moved.fields, "cake")
    assert keys_of(moved.fields).index("cake") == keys_of(page).index("cake") - 1
    assert (moved.fields[f"{row}-title"], moved.fields[f"{row}-likely"]) == (["Pie"], ["wrong"])
    again = moved.fields | {"do": f"later:{row}"}
    assert keys_of(Page(photographer.post(URL, again)).fields) == keys_of(page)


def test_an_order_that_alone_was_changed_is_kept(photographer, page):
    moved = Page(photographer.post(URL, page | {"do": f"later:{row_of(page, 'dance')}"})).fields
    assert photographer.post(URL, moved).status_code == 302
    assert kept_keys() == keys_of(moved) != keys_of(page)


@pytest.mark.parametrize(
    "do",
    ["earlier:blocks-0", f"later:blocks-{COUNT - 1}",
     "earlier:blocks-99", "later:blocks-x", "earlier:",
     "after:blocks-99999", "after:", "later:blocks--1", "nonsense"],
)  # fmt: skip
def test_a_move_that_leads_nowhere_loses_nothing(photographer, page, do):
    response = photographer.post(URL, page | {"do": do})
    assert response.status_code == 200
    again = Page(response).fields
    assert [key for key in keys_of(again) if key in keys_of(page)] == keys_of(page)


def test_a_moved_blocks_button_and_an_added_blocks_name_have_the_focus_without_script(
    photographer, page
):
    html = photographer.post(URL, page | {"do": "earlier:blocks-4"}).content.decode()
    assert html.count("autofocus") == 1
    assert 'value="earlier:blocks-3" autofocus' in html
    html = photographer.post(URL, page | {"do": "after:blocks-4"}).content.decode()
    assert html.count("autofocus") == 1
    (box,) = [tag for tag in html.split("<input") if "autofocus" in tag]
    assert 'name="blocks-5-title"' in box


def test_a_block_is_removed(photographer, page):
    assert photographer.post(URL, with_row(page, "cake", DELETE="on")).status_code == 302
    assert "cake" not in kept_keys()
    assert len(kept_keys()) == COUNT - 1


def test_blocks_of_one_kind_stand_twice_in_a_plan(photographer, wedding, page):
    Decisions.objects.update(style=OWN)
    typed = with_row(page, "details", kind="portraits", title="Two again")
    assert photographer.post(URL, typed).status_code == 302
    (day,) = plan_wedding(load_brief(wedding)).days
    found = [b.title for b in day.blocks if b.kind == "portraits"]
    assert found == ["Portraits of the two", "Two again"]
    assert len({b.key for b in day.blocks}) == len(day.blocks)


# What does not fit is told beside its cause, and everything typed stays


@pytest.fixture
def few(photographer, own):
    """The page of a shorter copy, which is drawn sooner."""
    KindBlock.objects.exclude(key__in=FEW).delete()
    return fields(photographer, URL)


@pytest.mark.parametrize(
    ("key", "typed", "field", "words"),
    [
        ("cake", {"least": "11"}, "likely", "Likely: enter no less than “Least”, which is 11."),
        ("cake", {"most": "4"}, "most", "Most: enter no less than “Likely”, which is 5."),
        ("cake", {"likely": "", "least": "11"}, "most",
         "Most: enter no less than “Least”, which is 11."),
        ("cake", {"most": "1441"}, "most", "Most: enter whole minutes from 1 to 1440."),
        ("cake", {"least": "-1"}, "least", "Least: enter whole minutes from 0 to 1440."),
        ("cake", {"likely": "0", "least": "0"}, "likely", "Likely: enter whole minutes from 1"),
        ("cake", {"likely": "7.5"}, "likely", "Likely: enter whole minutes from 1 to 1440."),
        ("cake", {"likely": "9" * 5000}, "likely", "Likely: enter whole minutes from 1"),
        ("cake", {"likely": ""}, "likely", "Likely: enter something here."),
        ("cake", {"title": " "}, "title", "Name: enter something here."),
        ("cake", {"title": "x" * 81}, "title", "Shorten this to 80 characters; it has 81."),
        ("cake", {"short": "5"}, "short", "Short form: enter less than the likely 5 minutes."),
        ("cake", {"short": "0"}, "short", "Short form, minutes: enter whole minutes from 1"),
        ("cake", {"importance": "11"}, "importance", "1 to 10: enter a number from 1 to 10."),
        ("cake", {"importance": "0"}, "importance", "1 to 10: enter a number from 1 to 10."),
        ("cake", {"importance": ""}, "importance", "enter something here."),
        ("cake", {"delay_most": ""}, "delay_most", "or leave all three empty."),
        ("cake", {"delay_likely": "20"}, "delay_most", "no less than “Late, likely”, which is 20."),
        ("cake", {"wet_least": "2"}, "wet_likely", "or leave all three empty."),
        ("cake", {"kind": "secret"}, "kind", "What it is: choose one that is in the list."),
        ("cake", {"use": "moon"}, "use", "Place: choose one that is in the list."),
        ("cake", {"kind": "golden"}, "kind", "is “Golden light, the two of them” already"),
        ("cake", {"moment": "meal"}, "moment", "A block above takes that time already."),
        ("golden", {"moment": "drinks"}, "moment", "It takes its time from something else"),
        ("golden", {"leads": "cake"}, "leads", "A block of this kind leads to nothing"),
        ("cake", {"kind": "pack", "leads": "dance", "moment": ""}, "leads", "leads to nothing"),
        ("arrivals", {"moment": "end"}, "moment", "choose one that is in the list."),
        ("cake", {"moment": "cake", "leads": "dance"}, "moment", "from something else"),
        ("details", {"leads": "ready"}, "leads",
         "It must stand before “Getting ready”: move it earlier."),
        ("details", {"leads": "night"}, "leads", "There is no “Charge the batteries"),
        ("details", {"leads": "details"}, "leads", "There is no “The room, before guests” here"),
        ("details", {"leads": "meal_call"}, "leads", "that begins by itself."),
        ("details", {"leads": "golden"}, "leads", "choose one that is in the list."),
        ("details", {"leads": "ceremony"}, "leads", "A block above ends then already."),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_told_beside_its_cause(photographer, few, key, typed, field, words):
    before, sent = stored(), with_row(few, key, **typed)
    response = photographer.post(URL, sent | {"kind-title": "Kept typing"})
    assert response.status_code == 200
    again, row = Page(response), row_of(few, key)
    assert again.words.count("This needs mending") == 1
    assert f"#id_{row}-{field}" in again.links
    assert words in said(response)
    html = response.content.decode()
    beside = html[html.index(f'id="id_{row}-{field}_error"') :].split("</div>")[0]
    assert words in beside
    assert again.fields["kind-title"] == ["Kept typing"]
    for name, value in typed.items():
        if name not in {"kind", "use", "moment", "leads"}:
            assert again.fields[f"{row}-{name}"] == [value]
    assert stored() == before


def test_a_lead_that_moved_behind_what_it_leads_to_is_told(photographer, page):
    moved = Page(photographer.post(URL, page | {"do": f"later:{row_of(page, 'arrivals')}"})).fields
    words = said(photographer.post(URL, moved))
    assert "It must stand before “Ceremony”: move it earlier." in words


def test_what_is_wrong_among_the_rest_is_in_sight(photographer, page):
    html = photographer.post(URL, with_row(page, "cake", short="99")).content.decode()
    assert html.count("<details open>") == 1


@pytest.mark.parametrize(
    ("title", "words"),
    [
        (" ", "Name of this kind of day: enter something here."),
        ("x" * 81, "Shorten this to 80 characters; it has 81."),
    ],
)
def test_a_kind_needs_a_name_of_at_most_80_characters(photographer, page, title, words):
    response = photographer.post(URL, page | {"kind-title": title})
    assert said(response).count(words) == 2
    assert "#id_kind-title" in Page(response).links


def test_a_removed_block_is_not_held_against_another(photographer, page):
    typed = with_row(page, "golden", DELETE="on", least="nonsense")
    assert photographer.post(
        URL, with_row(typed, "cake", kind="golden", moment="")
    ).status_code == (302)


def test_60_blocks_are_the_most_and_one_the_least(photographer, own, page):
    extra = [
        KindBlock(kind_of_day=own, position=100 + n, title=f"B{n}", kind="other", least=1,
                  likely=2, most=3)
        for n in range(60 - COUNT)
    ]  # fmt: skip
    KindBlock.objects.bulk_create(extra)
    full = fields(photographer, URL)
    assert photographer.post(URL, full).status_code == 302
    more = Page(photographer.post(URL, full | {"do": "add-blocks"})).fields
    more |= {"blocks-60-title": "B", "blocks-60-least": "1"}
    more |= {"blocks-60-likely": "1", "blocks-60-most": "1"}
    assert "60 rows are the most" in said(photographer.post(URL, more))
    none = full | {f"blocks-{n}-DELETE": "on" for n in range(60)}
    assert "Leave at least one block." in said(photographer.post(URL, none))
    assert KindBlock.objects.count() == 60


def test_a_page_opened_before_a_change_says_what_changed(photographer, page):
    photographer.post(URL, with_row(page, "cake", most="20"))
    words = said(photographer.post(URL, with_row(page, "cake", most="30")))
    assert "was changed after you opened the page. Choose which to keep." in words
    assert "after you opened this page. It now says: 20" in words
    assert photographer.post(URL, with_row(page, "dance", most="30")).status_code == 302
    assert KindBlock.objects.get(key="cake").most == 20


# Weddings and their kind


def test_a_booking_chooses_among_the_built_in_kinds_and_then_the_studios_own(
    photographer, wedding, own
):
    KindOfDay.objects.update(title="Barn & <b>lake</b>")
    booking = "/w/thora-lukasz/booking"
    html = photographer.get(booking).content.decode()
    assert html.index('value="winter"') < html.index(f'value="{OWN}"')
    assert "Barn &amp; &lt;b&gt;lake&lt;/b&gt;" in html
    assert 'href="/kinds"' in html
    assert photographer.post(booking, fields(photographer, booking) | {"style": OWN})
    assert Decisions.objects.get().style == OWN
    assert fields(photographer, booking)["style"] == [OWN]


def test_a_new_wedding_can_be_of_an_own_kind(photographer, own):
    new = fields(photographer, "/weddings/new") | {"first": "Wanjirũ", "second": "Ödön"}
    assert photographer.post("/weddings/new", new | {"style": OWN}).status_code == 302
    assert Decisions.objects.get().style == OWN


def test_removing_a_kind_asks_first_and_says_which_weddings_use_it(photographer, wedding, own):
    Decisions.objects.update(style=OWN)
    asked = said(photographer.get(f"{URL}/remove"))
    assert "It is used by: Þóra & Łukasz (12 June 2027) Their timelines" in asked
    assert "laid out as “One place, civil ceremony”" in asked
    assert KindOfDay.objects.exists()
    assert "Þóra & Łukasz" in said(photographer.get(URL))


def test_a_wedding_of_a_removed_kind_is_laid_out_as_a_day_at_one_place(photographer, wedding):
    copy_kind("winter", OWN)
    before = plan_wedding(load_brief(wedding)).days
    Decisions.objects.update(style=OWN)
    assert plan_wedding(load_brief(wedding)).days != before
    assert photographer.post(f"{URL}/remove")["Location"] == "/kinds"
    assert not KindBlock.objects.exists()
    assert plan_wedding(load_brief(wedding)).days == before
    booking = "/w/thora-lukasz/booking"
    assert fields(photographer, booking)["style"] == ["one_place"]
    assert photographer.get("/w/thora-lukasz/day").status_code == 200


def test_removing_a_kind_that_no_wedding_uses_says_so(photographer, own):
    assert "No wedding uses it." in said(photographer.get(f"{URL}/remove"))


def test_a_name_from_another_script_is_set_in_its_own_direction(photographer, own):
    KindOfDay.objects.update(title="<i>يوم</i>")
    for address in ("/kinds", URL, f"{URL}/remove"):
        html = photographer.get(address).content.decode()
        assert "&lt;i&gt;يوم&lt;/i&gt;" in html
        assert "<i>يوم" not in html
        assert "<bdi>&lt;i&gt;يوم&lt;/i&gt;</bdi>" in html


def test_the_studio_leads_to_the_kinds_of_day(photographer):
    assert "/kinds" in Page(photographer.get("/studio")).links
