"""FOREDAY_PICTURES, as the settings read it."""

import os
import subprocess
import sys

import pytest
from django.core.exceptions import ImproperlyConfigured

from studio import store_address
from studio.store_address import object_store
from tests.server import ROOT

KEYS = {"AWS_ACCESS_KEY_ID": "a key's name", "AWS_SECRET_ACCESS_KEY": "a key"}
HOME = {"FOREDAY_PICTURES": "s3://pictures/studio-one"}


@pytest.fixture(autouse=True)
def libraries(monkeypatch):
    monkeypatch.setattr(store_address, "find_spec", lambda name: name)


def options(**more):
    return object_store(KEYS | HOME | more)["OPTIONS"]


@pytest.mark.parametrize(
    ("address", "bucket", "folder"),
    [
        ("s3://pictures", "pictures", ""),
        ("s3://pictures/", "pictures", ""),
        ("s3://pic.tu-res9/one/two_3.4/", "pic.tu-res9", "one/two_3.4"),
    ],
)
def test_an_address_names_a_bucket_and_perhaps_a_folder(address, bucket, folder):
    told = options(FOREDAY_PICTURES=address)
    assert (told["bucket_name"], told["location"]) == (bucket, folder)


@pytest.mark.parametrize(
    "address",
    ["pictures", "S3://pictures", "https://pictures", "s3://", "s3://ab", "s3://Pictures",
     "s3://pictures/../other", "s3://pictures//a", "s3://name:key@pictures", "s3://pictures/a?b",
     "s3://pictures/.", f"s3://{'a' * 64}", "s3://pictures/a\n"],
)  # fmt: skip
def test_an_address_that_is_none_is_told(address):
    with pytest.raises(ImproperlyConfigured, match=r"^FOREDAY_PICTURES: not an address as s3://"):
        options(FOREDAY_PICTURES=address)


def test_keys_that_are_missing_are_named():
    with pytest.raises(ImproperlyConfigured, match="needs AWS_SECRET_ACCESS_KEY too"):
        options(AWS_SECRET_ACCESS_KEY="")


@pytest.mark.parametrize(
    ("address", "kept"),
    [
        ("", None),
        ("https://store.example", "https://store.example"),
        ("https://store.example:9000", "https://store.example:9000"),
        ("http://127.0.0.1:9000", "http://127.0.0.1:9000"),
    ],
)
def test_a_store_may_stand_elsewhere(address, kept):
    assert options(AWS_ENDPOINT_URL_S3=address)["endpoint_url"] == kept


@pytest.mark.parametrize(
    ("address", "words"),
    [
        ("http://store.example", "open to anybody between"),
        ("store.example", "not an address"),
        ("ftp://store.example", "not an address"),
        ("https://", "not an address"),
        ("https://store.example:port", "not an address"),
    ],
)
def test_a_store_that_cannot_be_is_told(address, words):
    with pytest.raises(ImproperlyConfigured, match=f"^AWS_ENDPOINT_URL_S3: .*{words}"):
        options(AWS_ENDPOINT_URL_S3=address)


def test_libraries_that_are_missing_are_told_with_the_command_that_brings_them(monkeypatch):
    monkeypatch.setattr(store_address, "find_spec", lambda name: None)
    with pytest.raises(ImproperlyConfigured, match="uv sync --group s3"):
        options()


def test_a_command_tells_it_in_one_line_and_never_the_key(tmp_path):
    wrong = {"FOREDAY_PICTURES": "s3://no", "AWS_SECRET_ACCESS_KEY": "marker-of-a-key"}
    environment = os.environ | {"FOREDAY_DATA": str(tmp_path)} | wrong
    command = [sys.executable, "manage.py", "check"]
    run = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True)
    assert (run.returncode, run.stdout) == (2, "")
    assert run.stderr.startswith("FOREDAY_PICTURES: not an address")
    assert run.stderr.count("\n") == 1
    assert "marker" not in run.stderr
