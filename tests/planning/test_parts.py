"""Which parts of a day pack are printed: chosen on Papers, in the address, or in a command."""

import copy
import io
import json
from dataclasses import replace
from datetime import date

import pytest
from django.core.management import CommandError, call_command
from pypdf import PdfReader

from intake.models import Group, MustHave, Place
from planning.demo.load import load_season
from planning.paper.calls import calls
from planning.paper.parts import PARTS, parts_of
from planning.paper.printing import CHOOSABLE
from planning.paper.sheets import SHEETS
from planning.paper.subject import Subject, subject_of
from planning.paper.wishes import wishes
from planning.press.draw import MOST_PAGES, TooLongError
from studio.models import Studio
from tests.page import said

from .agreed import agreed
from .drawn import html_of, offered
from .plans import make_plan

PAPERS = "/w/thora-lukasz/papers"
PACK = "/w/thora-lukasz/day-pack.pdf"
ORDINARY = ("orchard-barn", "two-villages", "winter-hall", "town-hall")


def text_of(response):
    assert response.status_code == 200, response
    return " ".join(page.extract_text() for page in PdfReader(io.BytesIO(response.content)).pages)


def ticked(client, address=PAPERS):
    html = client.get(address).content.decode()
    boxes = [box for box in html.split("<input") if 'name="part"' in box]
    return [box.split('value="')[1].split('"')[0] for box in boxes if " checked" in box]


def test_every_part_stands_on_a_paper_and_every_paper_has_a_part():
    keys = {sheet.key for sheet in SHEETS}
    assert all(part.sheets and part.sheets <= keys for part in PARTS)
    assert all(parts_of(key) for key in keys)
    assert len({part.key for part in PARTS}) == len(PARTS)


def test_at_first_every_part_is_ticked(photographer, timed):
    assert ticked(photographer) == list(CHOOSABLE)


def test_only_the_ticked_parts_are_printed(photographer, timed):
    text = text_of(photographer.get(PACK, {"size": "a4", "part": ["places", "open"]}))
    assert "Orchard Barn" in text
    assert "Still open" in text
    for other in ("The day", "Who to call", "Private:"):
        assert other not in text


def test_a_form_without_a_tick_leads_back_with_what_to_do(photographer, timed):
    response = photographer.get(PACK, {"size": "a6", "grey": "1"}, follow=True)
    assert "Choose a part of the day pack" in said(response)
    html = response.content.decode()
    assert 'value="a6" checked' in html
    assert 'name="grey" value="1" checked' in html


def test_a_part_with_nothing_to_say_says_why_and_prints_nothing(photographer, timed):
    assert "Group photographs (no groups yet)" in said(photographer.get(PAPERS))
    response = photographer.get(PACK, {"size": "a4", "part": ["groups"]}, follow=True)
    assert "has something to print" in said(response)
    assert ticked(photographer, response.redirect_chain[-1][0]) == ["groups"]


@pytest.mark.parametrize("query", ["part=nonsense&size=a4", "size=a3", "for=nobody&part=day"])
def test_nonsense_in_the_address_is_answered_calmly(photographer, timed, query):
    response = photographer.get(f"{PACK}?{query}", follow=True)
    assert response.redirect_chain[0][0].startswith(PAPERS)
    assert "Error:" in said(response)


def test_a_paper_that_is_none_is_not_found(photographer, timed):
    assert photographer.get("/w/thora-lukasz/everything.pdf").status_code == 404


def test_the_command_prints_what_the_page_prints(photographer, timed, tmp_path):
    out = tmp_path / "f.pdf"
    call_command("daypack", "thora-lukasz", out=out, parts="cover,open", stdout=io.StringIO())
    page = photographer.get(PACK, {"size": "a4", "part": ["cover", "open"]})
    assert out.read_bytes() == page.content


@pytest.mark.parametrize("parts", ["nonsense", "", "groups"])
def test_the_command_refuses_what_it_cannot_print(timed, tmp_path, parts):
    with pytest.raises(CommandError) as error:
        call_command("daypack", "thora-lukasz", out=tmp_path / "f.pdf", parts=parts)
    assert error.value.returncode == 2


def test_a_pack_that_would_be_a_book_is_refused_with_advice(photographer, timed, tmp_path):
    people = "\n".join(f"Guest {i} of a very long name" for i in range(60))
    for i in range(150):
        Group.objects.create(wedding=timed, key=f"g{i}", title=f"Group {i}", people=people)
    query = {"size": "a4", "part": ["groups", "open"]}
    response = photographer.get(PACK, query, follow=True)
    words = said(response)
    assert f"{MOST_PAGES['a4']} is the most" in words
    assert "Group photographs" in words
    assert "Print fewer parts at a time." in words
    assert ticked(photographer, f"{PAPERS}?size=a4&part=groups&part=open") == ["groups", "open"]
    with pytest.raises(CommandError, match="is the most"):
        call_command("daypack", "thora-lukasz", out=tmp_path / "f.pdf", parts="groups")


def test_how_many_pages_each_part_would_take_survives_a_process_border():
    error = copy.copy(TooLongError(52, 40, {"groups": 41, "open": 11}))  # by way of pickle's hooks
    assert (error.pages, error.most, error.parts) == (52, 40, {"groups": 41, "open": 11})


@pytest.mark.parametrize("name", ORDINARY)
def test_an_ordinary_wedding_takes_eight_to_fourteen_pages(db, kept_files, tmp_path, name):
    load_season(date(2026, 11, 24))
    out = tmp_path / "f.pdf"
    call_command("daypack", f"demo-{name}", out=out, stdout=io.StringIO())
    assert 8 <= len(PdfReader(out).pages) <= 14


def test_a_second_day_adds_six_pages_at_most(db, kept_files, tmp_path):
    load_season(date(2026, 11, 24))
    out = tmp_path / "f.pdf"
    call_command("daypack", "demo-two-days", out=out, stdout=io.StringIO())
    assert 8 <= len(PdfReader(out).pages) <= 20


def test_every_page_says_whose_it_is_which_print_and_which_of_how_many(photographer, timed):
    agreed(timed)
    pages = PdfReader(io.BytesIO(photographer.get(PACK).content)).pages
    subject = subject_of(timed)
    for number, page in enumerate(pages, 1):
        text = page.extract_text()
        assert f"{number} / {len(pages)}" in text
        assert f"version 1, print {subject.mark}" in text
        assert "Þóra & Łukasz" in text
    assert f"print {subject.mark}" in said(photographer.get(PAPERS))


def test_the_mark_is_the_same_for_the_same_plan_and_another_for_another(timed):
    before = subject_of(timed).mark
    assert subject_of(timed).mark == before
    Place.objects.update(not_allowed="No confetti")
    assert subject_of(timed).mark != before


def test_what_changed_since_it_was_agreed_is_marked_where_it_stands(photographer, timed):
    Group.objects.create(wedding=timed, key="g", title="Witnesses", people="Ana\nBo", wish="must")
    agreed(timed)
    assert '<span class="changed">' not in html(timed)
    Group.objects.update(people="Ana\nBo\nCy")
    timed.moments.filter(key="dinner").update(at="17:30")
    told = html(timed)
    assert told.count('<span class="changed">') >= 2
    part = told.split('id="part-groups"')[1].split("</section>")[0]
    assert '<span class="changed">changed</span>' in part
    assert "now with Cy" in told.split('id="part-changes"')[1]


def html(wedding):
    from planning.paper.sheets import BY_KEY
    from planning.pdf import paper_html

    return paper_html(subject_of(wedding), BY_KEY["day-pack"])


def test_you_call_first_whoever_opens_the_door_and_the_couple_late(timed):
    timed.partners.update(phone="07700 900001")
    Place.objects.update(coordinator="Marguerite", coordinator_phone="01632 960001")
    timed.contacts.create(key="h", listed_as="helper", name="Ragnar", phone="07700 900002")
    timed.contacts.create(key="s", listed_as="supplier", name="Band", phone="07700 900003")
    told = [call.name for rank in calls(subject_of(timed).plan) for call in rank.calls]
    assert told[0] == "Marguerite"
    assert told[1] == "Ragnar"
    assert told[-1] == "Band"
    assert told.index("Ragnar") < told.index("Þóra Sigurðardóttir (Þóra)") < told.index("Band")


def test_wanted_photographs_stand_under_the_block_in_which_they_are_taken(timed):
    for key, kind, text in (("a", "", "Us"), ("b", "meal", "Table"), ("c", "party", "Disco ball")):
        MustHave.objects.create(wedding=timed, key=key, kind=kind, text=text)
    told = {each.wishes[0].text: (each.title, each.when) for each in wishes(subject_of(timed).plan)}
    assert list(told)[-1] == "Us"
    assert told["Table"][1] == "17:00"
    assert told["Us"] == ("At any time", "")
    assert told["Disco ball"][0] == "Party"


def test_the_light_of_each_block_stands_beside_it_as_a_word(evidence):
    from planning.compute.day import plan_wedding
    from tests.compute.briefs import make_brief, make_day, moment

    day = make_day(moment("ceremony", "14:00"), moment("dance", "23:00"), hours="10:00-23:30")
    plan = plan_wedding(make_brief(day))
    rows = html_of(plan, Studio(name="M")).split('class="timeline"')[1]
    kinds = {row.split('"')[0].strip() for row in rows.split('class="lit ')[1:]}
    assert {"day", "night"} <= kinds


def test_a_plan_with_nothing_in_it_still_has_a_cover():
    plan = make_plan()
    plan = replace(plan, brief=replace(plan.brief, places=()), days=())
    assert "Łukasz" in html_of(plan, Studio(name="M"))
    assert Subject(plan, Studio(name="M")).mark


def test_papers_offers_every_paper_that_has_something_to_print(photographer, timed):
    there = offered(photographer.get(PAPERS))
    assert PACK in there
    assert "/w/thora-lukasz/calling-list.pdf" not in there
    Group.objects.create(wedding=timed, key="g", title="Witnesses", people="Ana")
    assert "/w/thora-lukasz/calling-list.pdf" in offered(photographer.get(PAPERS))


def test_the_command_lists_its_parts_in_its_help(capsys):
    with pytest.raises(SystemExit):
        call_command("daypack", "--help")
    assert set(CHOOSABLE) <= set(capsys.readouterr().out.replace(",", " ").split())


def test_the_command_reports_in_json(timed, tmp_path):
    out, told = tmp_path / "f.pdf", io.StringIO()
    call_command("daypack", "thora-lukasz", out=out, json=True, grey=True, stdout=told)
    assert json.loads(told.getvalue())["bytes"] == len(out.read_bytes())
