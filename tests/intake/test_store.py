"""What is kept of a file that somebody sent, what is refused, and how it goes back."""

import io
import os

import pytest
from django.db import transaction
from django.http import Http404
from PIL import Image

from intake import store
from intake.store import BadFileError, drop, forget, keep, keeping, sent
from tests.sent_files import PDF, SCRIPT, bad_files, heic, jpeg, upload


def test_a_picture_is_kept_twice_under_names_that_say_nothing(kept_files):
    kept = keep(upload(jpeg(), "honeymoon.jpg"), "thora-lukasz")
    assert sorted(kept_files()) == sorted([kept.name, kept.small])
    assert (kept.width, kept.height, kept.is_picture) == (640, 480, True)
    assert "honeymoon" not in kept.name + kept.small
    with store.store().open(kept.name) as file:
        assert Image.open(io.BytesIO(file.read())).size == (640, 480)
    assert keep(upload(jpeg()), "thora-lukasz").name != kept.name


def test_nobody_else_on_the_machine_reads_it(kept_files):
    kept = keep(upload(jpeg()), "thora-lukasz")
    path = store.store().path(kept.name)
    assert os.stat(path).st_mode & 0o777 == 0o600
    assert os.stat(os.path.dirname(path)).st_mode & 0o777 == 0o700
    with pytest.raises(ValueError, match="no address"):
        store.store().url(kept.name)


def test_the_digest_is_of_what_was_sent(kept_files):
    """SHA-256 of the letters "abc", from FIPS 180-4's example."""
    assert store.digest_of(b"abc").startswith("ba7816bf8f01cfea414140de5dae2223")
    one, again = (keep(upload(jpeg()), "a") for _ in range(2))
    assert one.digest == again.digest != keep(upload(jpeg(seed=3)), "a").digest


@pytest.mark.parametrize(("name", "content", "words"), [each[1:] for each in bad_files()],
                         ids=[each[0] for each in bad_files()])  # fmt: skip
def test_a_bad_file_is_told_in_one_line_and_leaves_nothing(kept_files, name, content, words):
    with pytest.raises(BadFileError, match=words) as told:
        keep(upload(content, name), "thora-lukasz")
    assert len(str(told.value)) < 90
    assert "\n" not in str(told.value)
    assert kept_files() == []


def test_a_file_of_just_the_size_is_taken_and_one_byte_more_is_not(kept_files, monkeypatch):
    monkeypatch.setattr(store, "MOST_BYTES", len(jpeg()))
    assert keep(upload(jpeg()), "a").is_picture
    with pytest.raises(BadFileError, match="is the most we take"):
        keep(upload(jpeg() + b"\0"), "a")


def test_whoever_sends_too_much_at_once_is_told_and_others_are_not(kept_files):
    with store.WAITING.one("a"), store.WAITING.one("a"):
        with pytest.raises(BadFileError, match="at the same moment"):
            keep(upload(jpeg()), "a")
        assert kept_files() == []
        assert keep(upload(jpeg()), "b").is_picture


def test_a_picture_that_takes_too_long_is_refused(kept_files, monkeypatch):
    monkeypatch.setattr(store, "PATIENCE", 0.001)
    with pytest.raises(BadFileError, match="too heavy"):
        keep(upload(jpeg()), "a")


def test_a_decoder_that_falls_over_is_no_mistake_of_ours(kept_files, monkeypatch, tmp_path):
    broken = tmp_path / "broken.py"
    broken.write_text("import os; os.abort()")
    monkeypatch.setattr(store.reencode, "__file__", str(broken))
    with pytest.raises(BadFileError, match="damaged"):
        keep(upload(jpeg()), "a")


def test_a_pdf_is_kept_as_it_came_where_one_is_asked_for(kept_files):
    kept = keep(upload(PDF, "plan.pdf"), "thora-lukasz", pdf=True)
    assert kept_files() == [kept.name]
    assert not kept.is_picture
    with store.store().open(kept.name) as file:
        assert file.read() == PDF
    with pytest.raises(BadFileError, match="not a JPEG"):
        keep(upload(PDF, "plan.jpg"), "thora-lukasz")


def test_where_a_pdf_is_asked_for_a_picture_will_do_and_a_page_will_not(kept_files):
    assert keep(upload(heic(), "plan.heic"), "a", pdf=True).is_picture
    for content in (SCRIPT, b"<html>%PDF-1.7", b" %PDF-"):
        with pytest.raises(BadFileError, match="neither a PDF nor"):
            keep(upload(content, "plan.pdf"), "a", pdf=True)


def test_files_go_again_where_their_row_cannot_be_written(kept_files):
    seen = []

    def write_row():
        with keeping(upload(jpeg()), "a"):
            seen.extend(kept_files())
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        write_row()
    assert len(seen) == 2
    assert kept_files() == []


def test_half_a_picture_is_not_kept_when_the_disk_is_full(kept_files, monkeypatch):
    written = []

    def full(content, folder, ending):
        if written:
            raise OSError(28, "No space left on device")
        written.append(real(content, folder, ending))
        return written[0]

    real = store._write
    monkeypatch.setattr(store, "_write", full)
    with pytest.raises(OSError, match="No space"):
        keep(upload(jpeg()), "a")
    assert kept_files() == []


def test_a_file_goes_when_its_row_is_gone_for_good(
    db, kept_files, django_capture_on_commit_callbacks
):
    kept = keep(upload(jpeg()), "a")
    with django_capture_on_commit_callbacks(execute=True), transaction.atomic():
        forget(kept.name, kept.small)
        assert len(kept_files()) == 2
    assert kept_files() == []
    drop(kept.name)  # gone already


def test_a_file_stays_when_its_row_stays(db, kept_files, django_capture_on_commit_callbacks):
    kept = keep(upload(jpeg()), "a")

    @transaction.atomic
    def fail():
        forget(kept.name, kept.small)
        raise ZeroDivisionError

    with django_capture_on_commit_callbacks(execute=True), pytest.raises(ZeroDivisionError):
        fail()
    assert len(kept_files()) == 2


@pytest.mark.parametrize(
    ("content", "kind", "disposition"),
    [
        (jpeg(), "image/jpeg", 'inline; filename="Picture 3.jpg"'),
        (PDF, "application/pdf", 'attachment; filename="Picture 3.pdf"'),
    ],
)
def test_a_file_goes_back_so_that_no_browser_runs_it(kept_files, content, kind, disposition):
    kept = keep(upload(content), "a", pdf=True)
    response = sent(kept.name, "Picture 3")
    assert response.content
    assert response["Content-Type"] == kind
    assert response["Content-Disposition"] == disposition
    assert response["X-Content-Type-Options"] == "nosniff"
    assert response["Cache-Control"] == "private, no-store"
    assert response["Content-Security-Policy"].startswith("sandbox; default-src 'none'")


def test_a_file_that_is_not_there_is_not_found(kept_files):
    with pytest.raises(Http404):
        sent("a/gone.jpg", "Picture 3")
