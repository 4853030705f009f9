"""A wedding is erased: nothing that refers to it stays, but what the table says and why."""

import io
import json
from datetime import timedelta
from uuid import UUID

import pytest
from django.apps import apps
from django.contrib.auth import SESSION_KEY
from django.contrib.sessions.backends.db import SessionStore
from django.contrib.sessions.models import Session
from django.core.management import CommandError, call_command
from django.db import connection, models
from django.test import Client
from django.utils import timezone

from intake.links import link_path
from intake.models import Answer, Group, Partner, Picture, Place, Question, Wedding
from intake.store import put, store
from planning.brief import load_brief
from planning.compute.day import plan_wedding
from planning.erasing import (
    NotErasedError,
    erase,
    forget_told,
    overwrite_deleted,
    strays,
    survey,
)
from planning.erasing_table import GOES, LEFT_OF_ENTRIES, STAYS
from planning.models import (
    Assigned,
    BagLine,
    BagNote,
    GivenEntry,
    GroupDecision,
    KitItem,
    ReadyItem,
    SheetLink,
    StudioPicture,
)
from planning.season_calendar import season_calendar
from planning.sheet_links import make_link
from studio.sessions import SAID
from tests import command_line
from tests.asked import ask, kept_as
from tests.conftest import member
from tests.page import said

from .backup.places import run, sqlite, told
from .marked import marked_wedding
from .test_privacy import ROWS

ALL = {model._meta.label: model for model in apps.get_models()}
WITH_IT = {label for labels in GOES.values() for label in labels}
UID = UUID("00000000-0000-4000-8000-000000000001")


@pytest.fixture
def full(db, kept_files, other, django_user_model):
    """Somebody else's wedding, and one with a row in every table, its files, and marks all over."""
    wedding = marked_wedding(ROWS)
    item = KitItem.objects.create(key="zoom", kind="lens", title="Zoom")
    BagLine.objects.create(wedding=wedding, item=item)
    BagNote.objects.create(wedding=wedding)
    second = member(django_user_model, "SECOND", "tansy")
    Assigned.objects.create(wedding=wedding, user=second)
    make_link(wedding, SheetLink.Sheet.SECOND, "", by=second.pk)
    GroupDecision.objects.create(group=Group.objects.get(key="g"), minutes=3)
    Place.objects.get(key="there").take_out()
    for model, key in ((Picture, "p"), (StudioPicture, "o")):
        files = put((b"Zqfile", b"Zqsmall", (60, 40)), "marked", key).as_row()
        model.objects.filter(key=key).update(**files)
    kept = put((b"Zqfile", b"Zqsmall", (60, 40)), "marked", "d")
    ask(wedding, "file", answer=kept_as(kept, "Zqlist.pdf"))
    shared = ask(None, "short", key="shared")
    Answer.objects.create(wedding=wedding, question=shared, kind="short", asked="Q", value="Zq")
    ReadyItem.objects.create(key="on-every-list", title="Ours")
    plant(wedding)
    return wedding


def rows_of(wedding):
    """Every row that goes with a wedding, by any path from it; found here in a way of our own."""
    found = {("intake.Wedding", wedding.pk): wedding}
    while True:
        before = len(found)
        for label, model in ALL.items():
            for field in model._meta.concrete_fields:
                if isinstance(field, models.ForeignKey) and field.related_model:
                    target = field.related_model._meta.label
                    keys = [pk for name, pk in found if name == target]
                    if target in WITH_IT:
                        rows = model._base_manager.filter(**{f"{field.name}__in": keys})
                        found |= {(label, row.pk): row for row in rows}
        if len(found) == before:
            return found


def plant(wedding):
    """A word of its own into every field of its rows that could hold one."""
    for number, ((label, pk), _row) in enumerate(rows_of(wedding).items()):
        model = ALL[label]
        for field in model._meta.concrete_fields:
            room = isinstance(field, models.CharField | models.TextField | models.JSONField)
            if not room or field.choices or field.name in SPARED or not fits(field, number):
                continue
            if (label, field.name) == ("intake.Answer", "value"):
                continue  # holds its own mark, or where a file lies
            model._base_manager.filter(pk=pk).update(**{field.name: f"Zq{number}-{field.name[:3]}"})


SPARED = {"file", "small", "public_id", "zone", "starts", "ends", "language"}


def fits(field, number):
    return field.max_length is None or field.max_length >= len(f"Zq{number}-xxx")


def whole_database():
    """All text of all tables, as the database itself gives it."""
    with connection.cursor() as cursor:
        text = []
        for table in connection.introspection.table_names(cursor):
            cursor.execute(f"SELECT * FROM {connection.ops.quote_name(table)}")  # noqa: S608
            text += [f"{table}: {row}" for row in cursor.fetchall()]
    return text


def test_every_table_is_decided():
    decided = WITH_IT | set(STAYS)
    assert set(ALL) - decided == set(), "what becomes of these when a wedding is erased?"
    assert decided - set(ALL) == set(), "no such table"


def test_a_table_that_refers_to_a_wedding_goes_with_it_or_says_why_not():
    for label, model in ALL.items():
        for field in model._meta.concrete_fields:
            target = field.related_model and field.related_model._meta.label
            if target == "intake.Wedding":
                assert label in WITH_IT or label == "planning.GivenEntry", label
            elif target in WITH_IT - {"intake.Question"}:
                assert label in WITH_IT, label


def test_the_marked_wedding_has_a_row_in_every_table_that_goes(full):
    there = {label for label, _pk in rows_of(full)}
    assert WITH_IT - there == set(), "give the marked wedding one, so that its erasing is seen"


def test_nothing_of_it_is_found_afterwards(full, kept_files):
    before = rows_of(full)
    planted = [line for line in whole_database() if "Zq" in line and "studio_" not in line]
    assert len(planted) > 40
    assert kept_files()
    erase(full)
    assert kept_files() == []
    assert not Wedding.objects.filter(pk=full.pk).exists()
    for label, pk in before:
        if label != "planning.GivenEntry":
            assert not ALL[label]._base_manager.filter(pk=pk).exists(), label
    ours = (
        "studio_studio",
        "planning_kititem",
        "planning_policy",
        "planning_kind",
        "planning_experience",
    )
    left = [line for line in whole_database() if "Zq" in line and not line.startswith(ours)]
    assert left == []
    assert not any("marked" in line for line in whole_database())


def test_what_was_said_and_not_read_yet_goes_with_it(full):
    """Too long for a cookie, it waits in a session, a couple's or the photographer's."""
    waiting = SessionStore()
    waiting.update({SAID: '[["__json_message", 0, 20, "Removed elsewhere: Zq"]]', SESSION_KEY: "7"})
    waiting.create()
    erase(full)
    assert dict(SessionStore(waiting.session_key).items()) == {SESSION_KEY: "7"}


def test_a_sign_in_that_has_ended_leaves_no_row(full):
    ended = SessionStore()
    ended.set_expiry(-1)
    ended.create()
    erase(full)
    assert not Session.objects.filter(pk=ended.session_key).exists()


def test_nothing_of_anybody_else_goes(full, other):
    theirs = set(rows_of(other))
    erase(full)
    assert set(rows_of(other)) == theirs
    assert Question.objects.filter(key="shared").exists()
    assert KitItem.objects.filter(key="zoom").exists()
    assert ReadyItem.objects.filter(key="on-every-list").exists()


def test_what_it_says_beforehand_is_what_goes(full, kept_files):
    found = survey(full)
    counted = len([label for label, _pk in rows_of(full) if label in WITH_IT])
    assert found.total == counted
    assert sorted(found.files) == sorted(kept_files())
    assert erase(full) == found


def test_of_a_calendar_only_what_tells_that_it_is_cancelled_is_left(full):
    GivenEntry.objects.filter(pk=UID).update(
        cancelled=False, sequence=4, summary="Þóra’s vows", starts="2027-06-12", ends="2027-06-13"
    )
    GivenEntry.objects.create(
        uid=UUID(int=7), wedding=full, cancelled=True, changed_at=timezone.now() - timedelta(40)
    )
    erase(full)
    (entry,) = GivenEntry.objects.all()
    assert (entry.uid, entry.cancelled, entry.sequence) == (UID, True, 5)
    told = {field.name for field in GivenEntry._meta.concrete_fields if getattr(entry, field.name)}
    assert told <= LEFT_OF_ENTRIES
    calendar = season_calendar(timezone.now()).decode()
    event = next(e for e in calendar.split("BEGIN:VEVENT") if str(UID) in e)
    assert "STATUS:CANCELLED" in event
    assert "SEQUENCE:5" in event
    assert "SUMMARY:Cancelled\r\n" in event
    assert "Þóra" not in calendar


def test_what_is_left_of_a_calendar_goes_once_readers_have_had_their_time(full):
    GivenEntry.objects.update(cancelled=False)
    erase(full)
    assert forget_told() == 0
    GivenEntry.objects.update(changed_at=timezone.now() - timedelta(days=31))
    assert forget_told() == 1


def test_a_file_without_a_row_goes_with_its_wedding_or_is_found_later(full, kept_files):
    put((b"large", b"small", (60, 40)), "marked", "left-by-a-kill")
    put((b"large", b"small", (60, 40)), "gone-long-ago", "left-by-a-kill")
    erase(full)
    assert strays() == sorted(kept_files())
    assert all(name.startswith("gone-long-ago/") for name in strays())


def test_where_a_file_cannot_be_removed_the_wedding_stays_to_be_erased_again(full, monkeypatch):
    def refuse(_store, name):
        raise OSError(30, "Read-only file system")

    with monkeypatch.context() as broken:
        broken.setattr(type(store()), "delete", refuse)
        with pytest.raises(NotErasedError, match="Read-only file system"):
            erase(full)
    assert Wedding.objects.filter(pk=full.pk).exists()
    erase(full)
    assert not Wedding.objects.filter(pk=full.pk).exists()


def test_plans_are_forgotten_too(timed):
    plan_wedding(load_brief(timed))
    assert plan_wedding.cache_info().currsize
    erase(timed)
    assert plan_wedding.cache_info().currsize == 0


def test_as_many_queries_for_many_rows_as_for_few(full, django_assert_max_num_queries):
    Partner.objects.bulk_create(Partner(wedding=full, name="X", key=f"x{n}") for n in range(200))
    with django_assert_max_num_queries(150):
        erase(full)


PAGE = "/w/thora-lukasz/erase"


@pytest.mark.parametrize("typed", ["", "thora", "Þóra & Łukasz", "thora-lukasz-2"])
def test_the_page_erases_nothing_until_the_right_word_is_typed(photographer, wedding, typed):
    page = photographer.post(PAGE, {"typed": typed})
    assert page.status_code == 200
    assert "Nothing was erased. To erase it, type thora-lukasz" in said(page)
    if typed:
        assert f'value="{typed.replace("&", "&amp;")}"' in page.content.decode()
    assert Wedding.objects.filter(pk=wedding.pk).exists()


def test_the_page_says_what_goes_and_what_stays_before_and_afterwards(photographer, timed):
    words = said(photographer.get(PAGE))
    for line in ("what the couple entered", "drives", "Backups that you keep elsewhere"):
        assert line in words
    assert Wedding.objects.filter(pk=timed.pk).exists()
    after = said(photographer.post(PAGE, {"typed": " Thora-Lukasz "}, follow=True))
    assert "Erased: 8: what the couple entered" in after
    assert "Backups that you keep elsewhere" in after.partition("What stays:")[2]
    assert "Łukasz" not in after
    assert photographer.get(PAGE).status_code == 404


def test_booking_leads_an_owner_there_and_nobody_else(photographer, wedding, django_user_model):
    booking, employed = "/w/thora-lukasz/booking", Client()
    employed.force_login(member(django_user_model, "PHOTOGRAPHER", "tansy"))
    assert f'href="{PAGE}"' in photographer.get(booking).content.decode()
    assert f'href="{PAGE}"' not in employed.get(booking).content.decode()


def test_the_couples_link_and_cookie_open_nothing_any_more(couple, wedding):
    link = link_path(wedding)
    erase(wedding)
    assert couple.get("/q/thora-lukasz/").status_code == 404
    assert Client().get(link).status_code == 404


def test_backups_that_still_hold_it_are_named(photographer, wedding, settings, tmp_path):
    settings.DATA_DIR = tmp_path
    assert "still hold" not in said(photographer.get(PAGE))
    folder = tmp_path / "backups"
    (folder / "damaged-20270612-090000").mkdir(parents=True)
    (folder / "before-migrate-20270612-090000.zip").touch()
    words = said(photographer.get(PAGE))
    assert "2 backups that Foreday made in its own folder still hold all of it" in words
    assert "before-migrate-20270612-090000.zip, damaged-20270612-090000" in words


def test_the_command_says_it_all_and_asks_first(wedding):
    out = io.StringIO()
    with pytest.raises(CommandError, match="give --yes") as refused:
        call_command("erase", "thora-lukasz", stdout=out)
    assert refused.value.returncode == 2
    assert "What goes:" in out.getvalue()
    assert "Backups that you keep elsewhere" in out.getvalue()
    call_command("erase", "thora-lukasz", look=True, stdout=out)
    assert "only a look" in out.getvalue()
    assert Wedding.objects.filter(pk=wedding.pk).exists()
    call_command("erase", "thora-lukasz", yes=True, json=True, stdout=(out := io.StringIO()))
    assert json.loads(out.getvalue())["erased"] is True
    assert not Wedding.objects.filter(pk=wedding.pk).exists()
    with pytest.raises(CommandError, match="There is no wedding"):
        call_command("erase", "thora-lukasz", yes=True)


@pytest.mark.parametrize("typed", [b"", b"\xff\n", b"y\n", b"thora-lukas\n", b"\0\n"])
def test_at_a_terminal_anything_but_the_id_erases_nothing(wedding, typed):
    ran = command_line.run("erase", "thora-lukasz", "--json", stdin=typed, at_terminal=True)
    assert (ran.code, ran.out) == (2, "")
    assert ran.err.endswith("for good: CommandError: Nothing was erased.\n")
    wedding.refresh_from_db()


def test_what_it_asks_at_a_terminal_is_no_part_of_its_json(wedding):
    ran = command_line.run(
        "erase", "thora-lukasz", "--json", stdin=b"thora-lukasz\n", at_terminal=True
    )
    assert json.loads(ran.out)["erased"] is True
    assert ran.err == "Type thora-lukasz to erase it for good: "


def test_the_database_file_is_left_alone_inside_a_transaction(db):
    assert overwrite_deleted() is (connection.vendor != "sqlite")


MAKE = """
from django.core.management import call_command
call_command("migrate", verbosity=0)
from intake.models import Partner, Wedding
from intake.store import put
wedding = Wedding.objects.create(public_id="w1", matters="Zqplanted " * 400)
Partner.objects.create(wedding=wedding, name="Zqplanted first")
wedding.matters = "Zqplanted later"
wedding.save()
put((b"Zqplanted", b"Zqplanted", (60, 40)), "w1", "d")
"""


def test_no_file_of_the_place_holds_a_word_of_it_afterwards(tmp_path):
    """Deleted words stay in a SQLite file until they are written over: the bytes are looked at."""
    place = sqlite(tmp_path)
    done = run(place, "shell", "-c", MAKE)
    assert done.returncode == 0, done.stderr
    assert holding(tmp_path) >= {"foreday.sqlite3"}
    report = json.loads(told(place, "erase", "w1", "--yes", "--json"))
    assert (report["files"], report["written_over"]) == (2, True)
    assert holding(tmp_path) == set()


def holding(folder):
    files = (path for path in folder.rglob("*") if path.is_file())
    return {path.name for path in files if b"Zqplanted" in path.read_bytes()}
