"""The studio's own questions on the couple's pages: nothing that is typed is lost."""

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from intake.links import link_path
from intake.models import Answer, Question, StepState
from tests.asked import EACH, ask, box
from tests.page import Page, fields, said

MORE = "/q/thora-lukasz/step/more"
CARE = "/q/thora-lukasz/step/care"
LIST = "/q/thora-lukasz/"
each_kind = pytest.mark.parametrize("kind", EACH)


def keep(client, page=MORE, **typed):
    return client.post(page, fields(client, page) | typed)


def values(question):
    return [a.value for a in Answer.objects.filter(question=question)]


@each_kind
def test_an_answer_of_every_kind_is_kept_and_shown_again(wedding, couple, kind):
    question, (_text, typed, kept) = ask(kind=kind), EACH[kind]
    assert keep(couple, **{box(question): typed}).status_code == 302
    assert values(question) == [kept]
    again = fields(couple, MORE)
    assert keep(couple).status_code == 302  # as it is shown, it is the same answer
    assert values(question) == [kept]
    nothing = [] if kind == "several" else ""
    assert keep(couple, **{box(question): nothing, "own-was": again["own-was"]}).status_code == 302
    assert values(question) == []


@each_kind
def test_it_is_answered_on_the_page_it_belongs_to(wedding, couple, kind):
    question = ask(kind=kind, step="care")
    assert question.text in said(couple.get(CARE))
    assert "A few more questions" in said(couple.get(CARE))
    assert question.text not in said(couple.get(MORE))
    keep(couple, CARE, **{box(question): EACH[kind][1], "carenotes-0-person": "Oma",
                          "carenotes-0-kind": "seat"})  # fmt: skip
    assert values(question) == [EACH[kind][2]]
    assert wedding.carenotes.get().person == "Oma"


def test_the_page_of_more_questions_is_listed_only_where_there_are_some(wedding, couple):
    assert "A few more questions" not in said(couple.get(LIST))
    ask(step="care")
    assert "A few more questions" not in said(couple.get(LIST))
    ask()
    assert "A few more questions" in said(couple.get(LIST))


def test_an_answer_is_optional_unless_it_is_said_to_be_missing(wedding, couple):
    question = ask(needed=True)
    assert "(optional)" not in said(couple.get(MORE))
    assert keep(couple).status_code == 302
    assert "1 thing missing" in said(couple.get(LIST))
    assert question.text in said(couple.get(LIST))
    keep(couple, **{box(question): "Yes"})
    assert question.text not in said(couple.get(LIST))
    Question.objects.update(needed=False)
    assert "(optional)" in said(couple.get(MORE))


@pytest.mark.parametrize("change", [{"hidden": True}, {"removed": True}, {"step": "care"}])
def test_what_is_typed_on_an_open_page_is_kept_though_the_question_went(wedding, couple, change):
    question = ask()
    page = fields(couple, MORE) | {box(question): "The dog, and two hens"}
    Question.objects.update(**change)
    assert couple.post(MORE, page).status_code == 302
    assert values(question) == ["The dog, and two hens"]


def test_a_draft_of_a_question_that_went_is_shown_until_it_is_kept(wedding, couple):
    question = ask()
    page = fields(couple, MORE) | {box(question): "Two hens", "do": "draft"}
    assert couple.post(MORE, page).json() == {"draft": True}
    wedding.not_asked = [question.token]
    wedding.save()
    assert "A few more questions" in said(couple.get(LIST))
    assert fields(couple, MORE)[box(question)] == ["Two hens"]
    assert keep(couple).status_code == 302
    assert values(question) == ["Two hens"]
    assert "/q/thora-lukasz/step/more" not in Page(couple.get(LIST)).links


def test_a_question_of_another_kind_keeps_what_was_said_before(wedding, couple):
    question = ask(answer="Two hens", by=wedding)
    Question.objects.update(kind="yes_no")
    assert keep(couple).status_code == 302
    assert values(question) == ["Two hens"]
    keep(couple, **{box(question): "yes"})
    assert values(question) == ["Two hens", "yes"]
    text = said(couple.get("/q/thora-lukasz/read-through"))
    assert "Answered earlier, and not asked any more" in text
    assert "Two hens" in text


def test_a_changed_question_keeps_the_words_that_were_answered(wedding, couple):
    question = ask(answer="Two hens", by=wedding, text="Any animals?")
    Question.objects.update(text="Any dogs?")
    assert keep(couple).status_code == 302
    text = said(couple.get("/q/thora-lukasz/read-through"))
    assert "Any animals? (now: Any dogs?)" in text
    keep(couple, **{box(question): "One dog"})
    assert Answer.objects.get().asked == "Any dogs?"


def test_a_choice_that_left_the_list_stays_chosen(wedding, couple):
    question = ask(kind="one", answer="Shy", by=wedding)
    Question.objects.update(choices="At ease\nNot at ease")
    assert fields(couple, MORE)[box(question)] == ["Shy"]
    assert keep(couple).status_code == 302
    assert values(question) == ["Shy"]


def test_a_choice_that_left_the_list_meanwhile_is_told(wedding, couple):
    question = ask(kind="one", choices="At ease\nShy %s\n100 % sure")
    page = fields(couple, MORE) | {box(question): "100 % sure"}
    Question.objects.update(choices="At ease\nShy")
    response = couple.post(MORE, page)
    assert "“100 % sure” is not among the choices any more" in said(response)
    assert f"#id_{box(question)}_0" in Page(response).links
    assert StepState.objects.get(slug="more").draft


def test_both_partners_at_once_are_shown_what_the_other_said(wedding, couple):
    question, another = ask(kind="long"), ask(kind="long", text="And the hens?")
    page = fields(couple, MORE)
    assert keep(couple, **{box(question): "Two hens"}).status_code == 302
    response = couple.post(MORE, page | {box(question): "A dog", box(another): "Brown"})
    assert "was changed after you opened the page" in said(response)
    assert "Two hens" in said(response)
    assert values(question) == ["Two hens"]
    again = Page(response).fields
    pick = next(name for name in Page(response).ids if name and name.endswith("_pick_both"))
    name = pick.removeprefix("id_")
    html = response.content.decode()
    value = html.partition(f'id="{pick}" value="')[2].partition('"')[0]
    name = name.removesuffix("_both")
    assert couple.post(MORE, again | {name: value}).status_code == 302
    assert values(question) == ["Two hens\nA dog"]
    assert values(another) == ["Brown"]


@pytest.mark.parametrize(
    ("kind", "typed", "words"),
    [
        ("short", "ż" * 301, "it has 301"),
        ("long", "ż" * 100_000, "it has 100000"),
        ("date", "31 June 2027", "Enter a date that exists"),
        ("number", "a dozen", "Enter a number, like 12 or 12.5."),
        ("yes_no", "perhaps", "“perhaps” is not among the choices"),
        ("several", ["Oma", "x" * 5000], "is not among the choices"),
    ],
)
def test_a_bad_answer_is_told_and_everything_typed_stays(wedding, couple, kind, typed, words):
    question, other = ask(kind=kind), ask(text="And besides?")
    response = keep(couple, **{box(question): typed, box(other): "Fine"})
    assert response.status_code == 200
    assert words in said(response)
    assert not Answer.objects.exists()
    assert fields(couple, MORE)[box(other)] == ["Fine"]
    if isinstance(typed, str) and kind != "yes_no":
        assert fields(couple, MORE)[box(question)] == [typed]


def test_control_characters_are_left_out(wedding, couple):
    question = ask()
    keep(couple, **{box(question): "Two\0 hens\x1b[31m\ufdd0"})
    assert values(question) == ["Two hens[31m"]


def test_nought_is_a_number(wedding, couple):
    question = ask(kind="number", needed=True)
    keep(couple, **{box(question): "0"})
    assert values(question) == ["0"]
    assert keep(couple).status_code == 302
    assert values(question) == ["0"]
    assert "0" in fields(couple, MORE)[box(question)]


def test_a_question_with_marks_of_a_programmer_is_a_question(wedding, couple):
    text = "100 % sure? %(label)s %s {{ x }} <b>"
    question = ask(kind="one", text=text)
    response = couple.get(MORE)
    assert text in said(response)
    assert "<b>" not in response.content.decode()
    assert keep(couple, **{box(question): "nothing of these"}).status_code == 200


def test_another_weddings_question_is_neither_seen_nor_answered(wedding, couple, other):
    theirs, ours = ask(other, text="Herons?"), ask(text="Hens?")
    assert "Herons" not in said(couple.get(MORE))
    keep(couple, **{box(theirs): "Mallory", box(ours): "Two"})
    assert [(a.wedding, a.value) for a in Answer.objects.all()] == [(wedding, "Two")]
    phone = Client()
    phone.get(link_path(other))
    page = "/q/wanjiru-odon/step/more"
    assert "Two" not in said(phone.get(page))
    assert {"Herons?", "Hens?"} <= set(said(phone.get(page)).replace("(optional)", "").split())


def test_a_question_of_one_wedding_comes_after_the_studios(wedding, couple):
    ask(wedding, text="Only for you?"), ask(text="For everybody?", position=9)
    text = said(couple.get(MORE))
    assert text.index("For everybody?") < text.index("Only for you?")


def test_many_questions_ask_no_more_of_the_database_than_few(wedding, couple):
    counts = []
    for _ in range(2):
        for kind in EACH:
            ask(kind=kind, answer=EACH[kind][2], by=wedding)
        with CaptureQueriesContext(connection) as queries:
            for page in (MORE, LIST, "/q/thora-lukasz/read-through"):
                assert couple.get(page).status_code == 200
        counts.append(len(queries))
    assert counts[0] == counts[1]
