"""A file that answers a question: kept in private, refused in one line, never taken unseen."""

import pytest
from django.db import connection
from django.test import Client, TestCase
from django.test.utils import CaptureQueriesContext

from intake import store
from intake.links import link_path
from intake.models import Answer, Question
from tests.asked import ask
from tests.page import Page, fields, said
from tests.sent_files import bad_files, jpeg, upload

STEP = "/q/thora-lukasz/step/more"
PDF = b"%PDF-1.7\n% the seating plan\n%%EOF\n"


@pytest.fixture(autouse=True)
def _own_store(kept_files):
    """No test sees the files of another."""


@pytest.fixture
def question(db):
    return ask(kind="file", key="plan", text="Your seating plan?")


PAGE = "/q/thora-lukasz/file/plan"


def post(client, page, **typed):
    """As a browser sends it; what waits for the commit is done, as after a real one."""
    with TestCase.captureOnCommitCallbacks(execute=True):
        return client.post(PAGE, page | typed)


def send(client, content, name="plan.pdf"):
    return post(client, fields(client, PAGE), file=upload(content, name))


@pytest.mark.parametrize(("content", "name"), [(PDF, "plan.pdf"), (jpeg(), "plan.jpg")])
def test_a_file_is_kept_and_opened_by_the_couple_and_the_photographer(
    wedding, couple, question, photographer, content, name, kept_files
):
    assert PAGE in Page(couple.get(STEP)).links
    assert send(couple, content, name)["Location"] == STEP
    assert f"Kept: {name}." in said(couple.get(STEP))
    assert name in said(couple.get(STEP))
    assert len(kept_files()) == (1 if content is PDF else 2)
    for client in (couple, photographer):
        response = client.get(f"{PAGE}/sent")
        assert response.status_code == 200
        assert response["X-Content-Type-Options"] == "nosniff"
    for page in ("/q/thora-lukasz/read-through", "/w/thora-lukasz/answers"):
        client = photographer if page.startswith("/w/") else couple
        assert f"{PAGE}/sent" in Page(client.get(page)).links


def test_a_file_takes_the_place_of_the_one_before(wedding, couple, question, kept_files):
    send(couple, PDF)
    send(couple, PDF + b"2", "better.pdf")
    assert Answer.objects.get().value["called"] == "better.pdf"
    assert len(kept_files()) == 1


def test_a_file_sent_twice_is_kept_once(wedding, couple, question, kept_files):
    page = fields(couple, PAGE)
    for _ in range(2):
        assert post(couple, page, file=upload(PDF, "plan.pdf")).status_code == 302
    assert len(kept_files()) == Answer.objects.count() == 1


def test_the_other_partners_file_is_not_taken_away_unseen(wedding, couple, question, kept_files):
    page = fields(couple, PAGE)
    send(couple, PDF)
    for more in ({"file": upload(PDF + b"2", "other.pdf")}, {"do": "remove"}):
        response = post(couple, page, **more)
        assert "another phone or computer meanwhile" in said(response)
        assert "plan.pdf" in said(response)
    assert Answer.objects.get().value["called"] == "plan.pdf"
    assert len(kept_files()) == 1


def test_a_file_is_removed(wedding, couple, question, kept_files):
    send(couple, PDF)
    assert post(couple, fields(couple, PAGE), do="remove").status_code == 302
    assert not Answer.objects.exists()
    assert kept_files() == []
    assert post(couple, fields(couple, PAGE), do="remove").status_code == 302
    assert couple.get(f"{PAGE}/sent").status_code == 404


@pytest.mark.parametrize(
    ("name", "content", "words"),
    [each[1:] for each in bad_files()],
    ids=[each[0] for each in bad_files()],
)
def test_a_bad_file_is_told_in_one_line_and_the_one_before_stays(
    wedding, couple, question, kept_files, name, content, words
):
    send(couple, PDF)
    response = send(couple, content, name)
    assert response.status_code == 200
    assert "Nothing was kept" in said(response)
    told = f"“{name}”:"
    assert said(response).count(told) == 2  # in the summary, and beside the box
    assert words.removeprefix("not a ") in said(response).replace("nor a JPEG", "a JPEG")
    assert Answer.objects.get().value["called"] == "plan.pdf"
    assert len(kept_files()) == 1


def test_no_file_is_told(wedding, couple, question):
    response = couple.post(PAGE, fields(couple, PAGE))
    assert "Choose a file first." in said(response)


def test_a_long_and_hostile_name_is_shortened_and_shown_as_text(wedding, couple, question):
    send(couple, PDF, "<script>alert(1)</script>" + "x" * 180 + ".pdf")
    html = couple.get(PAGE).content.decode()
    assert "<script>alert" not in html
    assert len(Answer.objects.get().value["called"]) <= 120


def test_a_file_of_a_question_that_was_put_away_is_kept_and_still_opens(wedding, couple, question):
    send(couple, PDF)
    Question.objects.update(removed=True)
    assert PAGE not in Page(couple.get(STEP)).links
    assert couple.get(f"{PAGE}/sent").status_code == 200
    assert send(couple, PDF + b"2", "late.pdf").status_code == 302  # from a page that was open


def test_another_couple_sees_neither_the_file_nor_a_question_of_one_wedding(
    wedding, couple, question, other
):
    send(couple, PDF)
    phone = Client()
    phone.get(link_path(other))
    theirs = "/q/wanjiru-odon/file/plan"
    assert phone.get(theirs).status_code == 200  # the same question, and no file of ours
    assert "plan.pdf" not in said(phone.get(theirs))
    assert phone.get(f"{theirs}/sent").status_code == 404
    ask(wedding, kind="file", key="ours")
    assert phone.get("/q/wanjiru-odon/file/ours").status_code == 404
    for page in (PAGE, f"{PAGE}/sent"):
        assert phone.get(page).status_code == 404
        assert Client().get(page).status_code == 404


def test_a_question_of_another_kind_takes_no_file(wedding, couple):
    ask(key="plan")
    assert couple.get(PAGE).status_code == 404


def test_a_needed_file_is_missing_until_it_is_sent(wedding, couple, question):
    Question.objects.update(needed=True)
    couple.post(STEP, fields(couple, STEP))
    assert "Your seating plan?" in said(couple.get("/q/thora-lukasz/"))
    send(couple, PDF)
    assert "Your seating plan?" not in said(couple.get("/q/thora-lukasz/"))


def test_a_file_costs_no_query_for_each_of_many(wedding, couple, question):
    def asked():
        with CaptureQueriesContext(connection) as queries:
            couple.get(STEP)
        return len(queries)

    few = asked()
    for _ in range(9):
        ask(kind="file")
    assert asked() == few
    assert store.MOST_BYTES
