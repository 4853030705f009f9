"""A summary as text: the same letters for the same values, read back whole, or refused."""

import hashlib
import json

import pytest

from planning.compute.agreed import digest_of, from_text, to_text
from planning.compute.agreed_plan import agreed_of
from planning.compute.day import plan_wedding

from .summaries import BRIEF, NOTE, SPOKEN, summary


def test_what_is_written_is_read_back_as_it_was():
    assert from_text(to_text(summary())) == summary()


def test_the_same_values_are_the_same_text_whatever_was_planned_between():
    one = to_text(summary())
    plan_wedding.cache_clear()
    assert to_text(agreed_of(plan_wedding(BRIEF), SPOKEN, (NOTE,))) == one


def test_letters_of_every_language_stand_as_they_are_written():
    assert "Žofie Nováková" in to_text(summary())


@pytest.mark.parametrize(
    ("text", "digest"),
    [
        # FIPS 180-4's own examples of SHA-256, one block and two (NIST, SHA256.pdf), and the
        # empty message of NIST's CAVP short-message vectors
        ("abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"),
        (
            "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        ),
        ("", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
    ],
)
def test_the_digest_is_the_standards(text, digest):
    assert digest_of(text) == digest


def test_a_digest_is_of_the_bytes_in_utf_8():
    assert digest_of("Þóra") == hashlib.sha256(b"\xc3\x9e\xc3\xb3ra").hexdigest()


@pytest.mark.parametrize(
    "text",
    ["", "[]", "null", "{}", '{"format": 1}', '{"format": 1, "days": 3}', "not JSON at all"],
)
def test_what_is_no_summary_is_refused(text):
    with pytest.raises(ValueError, match="no summary of ours"):
        from_text(text)


@pytest.mark.parametrize(
    ("name", "value"),
    [("format", 2), ("days", [{"key": "d"}]), ("names", None), ("room", {}), ("surprise", 1)],
)
def test_a_summary_with_one_thing_wrong_is_refused(name, value):
    values = json.loads(to_text(summary())) | {name: value}
    with pytest.raises(ValueError, match="no summary of ours"):
        from_text(json.dumps(values))


def test_a_date_that_is_none_is_refused():
    values = json.loads(to_text(summary()))
    values["days"][0]["date"] = "2027-02-30"
    with pytest.raises(ValueError, match="no summary of ours"):
        from_text(json.dumps(values))
