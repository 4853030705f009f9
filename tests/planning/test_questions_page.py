"""The photographer's own questions: written, ordered, hidden, removed, tried, and left out."""

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from intake.models import Answer, Question
from planning.question_form import MOST_CHOICES, MOST_QUESTIONS
from tests.asked import EACH, ask
from tests.page import Page, fields, said

PAGE = "/questions"
HERE = "/w/thora-lukasz/questions"
both = pytest.mark.parametrize("page", [PAGE, HERE])


def press(client, page=PAGE, **typed):
    return client.post(page, fields(client, page) | typed)


def texts(**of):
    return [q.text for q in Question.objects.filter(removed=False, **of)]


@both
@pytest.mark.parametrize("kind", [*EACH, "file"])
def test_a_question_of_every_kind_is_kept_and_shown_again(photographer, wedding, page, kind):
    row = {
        "questions-0-text": "Any 100 % sure?",
        "questions-0-kind": kind,
        "questions-0-choices": "Fish\r\n\r\n  Beans  and rice ",
        "questions-0-hint": "Why we ask",
        "questions-0-step": "care",
        "questions-0-needed": "on",
    }
    assert press(photographer, page, **row).status_code == 302
    question = Question.objects.get()
    assert question.wedding == (wedding if page == HERE else None)
    assert (question.kind, question.step, question.needed) == (kind, "care", True)
    assert question.choices == "Fish\nBeans and rice"
    assert fields(photographer, page)["questions-0-text"] == ["Any 100 % sure?"]
    assert press(photographer, page).status_code == 302
    assert Question.objects.get().choices == "Fish\nBeans and rice"


@both
def test_an_empty_page_is_kept_and_makes_nothing(photographer, wedding, page):
    assert press(photographer, page).status_code == 302
    assert not Question.objects.exists()


@pytest.mark.parametrize(
    ("choices", "words"),
    [
        ("", "Enter at least two choices"),
        (" \r\n \r\n", "Enter at least two choices"),
        ("One", "Enter at least two choices"),
        ("Fish\r\nBeans\r\nFISH", "“Fish” stands there twice"),
        ("\r\n".join(f"Choice {n}" for n in range(300)), "These are 300 choices"),
        ("Fish\r\n" + "x" * 121, "has at most 120 characters"),
        ("x" * 100_000, "it has 100000"),
    ],
)
def test_choices_that_are_none_are_told_and_stay(photographer, choices, words):
    row = {"questions-0-text": "Meal?", "questions-0-kind": "one", "questions-0-choices": choices}
    response = press(photographer, **row)
    assert response.status_code == 200
    assert words in said(response)
    assert Page(response).fields["questions-0-choices"] == [choices]
    assert "#id_questions-0-choices" in Page(response).links
    assert not Question.objects.exists()


def test_as_many_choices_as_may_be_are_kept(photographer):
    choices = "\r\n".join(f"Choice {n}" for n in range(MOST_CHOICES))
    row = {"questions-0-text": "Meal?", "questions-0-kind": "several"}
    assert press(photographer, **row, **{"questions-0-choices": choices}).status_code == 302


@pytest.mark.parametrize(
    ("name", "value", "words"),
    [
        ("text", "", "Question: enter something here."),
        ("text", "x" * 100_000, "it has 100000"),
        ("kind", "riddle", "choose one that is in the list"),
        ("step", "nowhere", "On the page"),
        ("step", "pictures", "On the page"),
        ("hint", "x" * 301, "it has 301"),
    ],
)
def test_what_is_wrong_is_told_and_everything_stays(photographer, name, value, words):
    row = {"questions-0-text": "Meal?", "questions-0-hint": "Why"} | {f"questions-0-{name}": value}
    response = press(photographer, **row)
    assert response.status_code == 200
    assert words in said(response)
    assert not Question.objects.exists()


def test_control_characters_are_left_out(photographer):
    press(photographer, **{"questions-0-text": "Me\0al\x1b?"})
    assert texts() == ["Meal?"]


def test_questions_are_moved_added_and_put_in_order_without_scripts(photographer):
    ask(text="First?"), ask(text="Second?", position=1)
    page = fields(photographer, PAGE)
    moved = photographer.post(PAGE, page | {"do": "earlier:questions-1"})
    assert "Not kept yet." in said(moved)
    assert texts() == ["First?", "Second?"]
    assert photographer.post(PAGE, Page(moved).fields | {"do": "save"}).status_code == 302
    assert texts() == ["Second?", "First?"]
    page = fields(photographer, PAGE) | {"do": "after:questions-0"}
    added = Page(photographer.post(PAGE, page)).fields | {"do": "save"}
    added["questions-1-text"] = "Between?"
    photographer.post(PAGE, added)
    assert texts() == ["Second?", "Between?", "First?"]


def test_a_removed_question_keeps_what_was_answered(photographer, wedding, couple):
    ask(answer="Two hens", by=wedding)
    assert "answered by 1 couple" in said(photographer.get(PAGE))
    assert press(photographer, **{"questions-0-DELETE": "on"}).status_code == 302
    assert texts() == []
    assert Answer.objects.get().value == "Two hens"
    assert "Two hens" in said(photographer.get("/w/thora-lukasz/answers"))
    assert "step/more" not in couple.get("/q/thora-lukasz/").content.decode()


def test_a_hidden_question_stays_with_the_studio_and_is_asked_of_nobody(photographer, couple):
    ask()
    press(photographer, **{"questions-0-hidden": "on"})
    assert fields(photographer, PAGE)["questions-0-hidden"] == ["on"]
    assert "step/more" not in couple.get("/q/thora-lukasz/").content.decode()


def test_more_questions_than_a_couple_answers_are_told(photographer):
    many = {f"questions-{n}-text": f"Question {n}?" for n in range(MOST_QUESTIONS + 1)}
    many |= {f"questions-{n}-kind": "short" for n in range(MOST_QUESTIONS + 1)}
    many |= {f"questions-{n}-step": "more" for n in range(MOST_QUESTIONS + 1)}
    assert f"{MOST_QUESTIONS} rows are the most" in said(press(photographer, **many))


def test_the_same_page_sent_twice_makes_one_question(photographer):
    page = fields(photographer, PAGE) | {"questions-0-text": "Hens?"}
    for _ in range(2):
        assert photographer.post(PAGE, page).status_code == 302
    assert texts() == ["Hens?"]


def test_a_key_of_another_weddings_question_changes_nothing_there(photographer, wedding, other):
    theirs = ask(other, text="Herons?")
    for page in (PAGE, HERE):
        row = {"questions-0-text": "Mallory?", "questions-0-key": theirs.key}
        assert press(photographer, page, **row).status_code == 302
    assert texts(wedding=other) == ["Herons?"]
    assert texts(wedding=wedding) == texts(wedding=None) == ["Mallory?"]


def test_what_another_page_changed_meanwhile_is_told(photographer):
    ask(text="Hens?")
    page = fields(photographer, PAGE)
    press(photographer, **{"questions-0-text": "Dogs?"})
    response = photographer.post(PAGE, page | {"questions-0-text": "Cats?"})
    assert "was changed after you opened the page" in said(response)
    assert texts() == ["Dogs?"]


def test_the_preview_is_drawn_as_couples_see_it(photographer, couple, wedding):
    for kind in EACH:
        ask(kind=kind, hint="Why we ask", step="care" if kind == "date" else "more")
    ask(kind="file")
    ask(text="Hidden?", hidden=True)
    ask(wedding, text="Only for one?")
    text = said(photographer.get(f"{PAGE}/preview"))
    shown = said(couple.get("/q/thora-lukasz/step/more"))
    for kind in EACH:
        assert EACH[kind][0] in text
        assert kind == "date" or EACH[kind][0] in shown
    assert "Hidden?" not in text
    assert "Only for one?" not in text
    assert "What we should know" in text
    html = photographer.get(f"{PAGE}/preview").content.decode()
    ids = [part.partition('"')[0] for part in html.split(' id="')[1:]]
    assert len(ids) == len(set(ids))


def test_a_preview_of_nothing_says_so(photographer):
    assert "There are none that are asked now." in said(photographer.get(f"{PAGE}/preview"))


def test_what_does_not_apply_is_ticked_for_one_wedding(photographer, couple, wedding, other):
    question = ask(text="Hens?")
    page = fields(photographer, HERE)
    page |= {"left_out-own": [question.token], "left_out-pages": ["step.groups"]}
    assert photographer.post(HERE, page).status_code == 302
    wedding.refresh_from_db()
    assert set(wedding.not_asked) == {question.token, "step.groups"}
    listed = Page(couple.get("/q/thora-lukasz/")).links
    assert "/q/thora-lukasz/step/groups" not in listed
    assert "/q/thora-lukasz/step/more" not in listed
    other.refresh_from_db()
    assert other.not_asked == []
    again = fields(photographer, HERE)
    assert again["left_out-pages"] == ["step.groups"]
    assert photographer.post(HERE, again | {"left_out-pages": []}).status_code == 302
    wedding.refresh_from_db()
    assert wedding.not_asked == [question.token]


def test_a_tick_of_a_question_that_is_put_away_for_now_stays(photographer, wedding):
    question = ask()
    wedding.not_asked = [question.token]
    wedding.save()
    Question.objects.update(hidden=True)
    assert press(photographer, HERE).status_code == 302
    wedding.refresh_from_db()
    assert wedding.not_asked == [question.token]


def test_a_forged_tick_is_told(photographer, wedding):
    response = press(photographer, HERE, **{"left_out-pages": ["step.day"]})
    assert response.status_code == 200
    wedding.refresh_from_db()
    assert wedding.not_asked == []


def test_the_pages_are_found(photographer, wedding):
    assert PAGE in Page(photographer.get("/studio")).links
    assert HERE in photographer.get("/w/thora-lukasz/answers").content.decode()


def test_answers_say_the_old_words_where_the_question_changed(photographer, wedding):
    ask(answer="Two hens", by=wedding, text="Any animals?", needed=True)
    Question.objects.update(text="Any dogs?", kind="yes_no")
    text = said(photographer.get("/w/thora-lukasz/answers"))
    assert "Any animals? (now: Any dogs?)" in text
    assert "Two hens" in text
    assert "Your own question is not answered: Any dogs?" in text


def test_the_page_asks_the_database_as_often_with_many_questions(photographer, wedding):
    counts = []
    for _ in range(2):
        for kind in EACH:
            ask(kind=kind, answer=EACH[kind][2], by=wedding)
            ask(wedding, kind=kind)
        for page in (PAGE, HERE, f"{PAGE}/preview", "/w/thora-lukasz/answers", "/"):
            with CaptureQueriesContext(connection) as queries:
                assert photographer.get(page).status_code == 200
            counts.append(len(queries))
    assert counts[:5] == counts[5:]
