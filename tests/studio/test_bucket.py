"""Pictures in an object store: against a real S3 server on loopback (moto 5.2.5, Apache-2.0)."""

import io
import json
import os
import shutil
import urllib.error
import urllib.request
from concurrent.futures import ThreadPoolExecutor
from importlib.util import find_spec

import pytest
from django.core.files.base import ContentFile
from django.core.files.storage import storages
from django.core.management import call_command
from django.urls import reverse
from PIL import Image

from intake import store
from intake.models import Picture
from intake.store import BadFileError, keep, keeping, sent
from planning.erasing import erase
from studio.checks import pictures_are_kept_in_private
from studio.store_address import object_store
from tests.outside import outside
from tests.page import said
from tests.planning.backup.places import look, place, told
from tests.sent_files import PDF, jpeg, upload
from tests.server import free_port, running

pytestmark = [
    pytest.mark.xdist_group("s3"),
    pytest.mark.skipif(not find_spec("storages"), reason="not installed: uv sync --group s3"),
]
KEYS = {"AWS_ACCESS_KEY_ID": "key-of-the-tests", "AWS_SECRET_ACCESS_KEY": "nothing secret"}


@pytest.fixture(scope="module")
def server():
    program, port = outside("s3-server/bin/moto_server"), free_port()
    with running([str(program), "-H", "127.0.0.1", "-p", str(port)], port, dict(os.environ)):
        yield f"http://127.0.0.1:{port}"


@pytest.fixture
def environment(server):
    return KEYS | {
        "FOREDAY_PICTURES": "s3://pictures/studio-one",
        "AWS_ENDPOINT_URL_S3": server,
        "AWS_DEFAULT_REGION": "us-east-1",
    }


@pytest.fixture
def bucket(server, environment, settings):
    """A bucket of one's own as the store of pictures; gives boto3's client for it."""
    import boto3

    settings.STORAGES = settings.STORAGES | {"pictures": object_store(environment)}
    client = boto3.client(
        "s3",
        endpoint_url=server,
        region_name="us-east-1",
        aws_access_key_id=KEYS["AWS_ACCESS_KEY_ID"],
        aws_secret_access_key=KEYS["AWS_SECRET_ACCESS_KEY"],
    )
    urllib.request.urlopen(urllib.request.Request(f"{server}/moto-api/reset", method="POST"))
    client.create_bucket(Bucket="pictures")
    return client


def objects(bucket):
    return [each["Key"] for each in bucket.list_objects(Bucket="pictures").get("Contents", [])]


def test_a_picture_is_kept_there_under_the_folder_and_comes_back(bucket):
    kept = keep(upload(jpeg()), "thora-lukasz")
    names = [f"studio-one/{name}" for name in (kept.name, kept.small)]
    assert sorted(objects(bucket)) == sorted(names)
    with storages["pictures"].open(kept.name) as file:
        assert Image.open(io.BytesIO(file.read())).size == (640, 480)
    assert storages["pictures"].exists(kept.name)
    assert storages["pictures"].listdir("") == (["thora-lukasz"], [])
    assert len(storages["pictures"].listdir("thora-lukasz")[1]) == 2
    with storages["pictures"].open(kept.small) as file:
        assert storages["pictures"].size(kept.small) == len(file.read())


def test_nobody_opens_it_without_the_keys_and_it_has_no_address(bucket, server):
    kept = keep(upload(PDF, "list.pdf"), "thora-lukasz", pdf=True)
    with pytest.raises(urllib.error.HTTPError, match="403"):
        urllib.request.urlopen(f"{server}/pictures/studio-one/{kept.name}")
    with pytest.raises(ValueError, match="no address"):
        storages["pictures"].url(kept.name)
    head = bucket.head_object(Bucket="pictures", Key=f"studio-one/{kept.name}")
    assert head["CacheControl"] == "private, no-store"


def test_a_couple_adds_sees_and_removes_a_picture_as_on_a_disk(bucket, couple, wedding):
    page = reverse("pictures", args=[wedding.public_id])
    couple.post(page, {"files": [upload(jpeg(), "a.jpg")], "line": "Like this"})
    picture = Picture.objects.get()
    shown = couple.get(reverse("picture", args=[wedding.public_id, picture.key]))
    assert shown["Content-Type"] == "image/jpeg"
    assert shown["Cache-Control"] == "private, no-store"
    assert "Location" not in shown
    assert Image.open(io.BytesIO(shown.content)).size == (640, 480)
    assert len(objects(bucket)) == 2


def test_a_picture_whose_row_is_not_written_is_taken_away(bucket):
    with pytest.raises(RuntimeError), keeping(upload(jpeg()), "thora-lukasz"):
        raise RuntimeError
    assert objects(bucket) == []


def test_a_removed_picture_is_gone_there_too(bucket, django_capture_on_commit_callbacks, db):
    kept = keep(upload(jpeg()), "thora-lukasz")
    with django_capture_on_commit_callbacks(execute=True):
        store.forget(kept.name, kept.small)
    assert objects(bucket) == []


def test_a_picture_that_is_not_there_is_told_as_on_a_disk(bucket):
    with pytest.raises(FileNotFoundError):
        storages["pictures"].open("thora-lukasz/gone.jpg")
    with pytest.raises(store.Http404):
        sent("thora-lukasz/gone.jpg", "Picture 1")
    store.drop("thora-lukasz/gone.jpg")


def test_the_day_pack_shows_pictures_from_there(bucket, wedding, tmp_path):
    kept = keep(upload(jpeg()), wedding.public_id)
    Picture.objects.create(wedding=wedding, key="one", line="Like this", **kept.as_row())
    with_it, without = tmp_path / "with.pdf", tmp_path / "without.pdf"
    call_command("daypack", wedding.public_id, out=with_it)
    store.drop(kept.small)
    call_command("daypack", wedding.public_id, out=without)
    assert with_it.stat().st_size > without.stat().st_size + 1000


@pytest.fixture(params=["no bucket", "no server"])
def broken(bucket, settings, request):
    """A store that was there and is not any more."""
    if request.param == "no bucket":
        bucket.delete_bucket(Bucket="pictures")
        return "NoSuchBucket"
    entry = settings.STORAGES["pictures"]
    away = {"endpoint_url": f"http://127.0.0.1:{free_port()}"}
    entry = entry | {"OPTIONS": entry["OPTIONS"] | away}
    settings.STORAGES = settings.STORAGES | {"pictures": entry}
    return "EndpointConnectionError"


def test_a_store_that_fails_is_told_beside_the_file_and_nothing_else_is_lost(
    broken, couple, wedding, caplog
):
    page = reverse("pictures", args=[wedding.public_id])
    answer = couple.post(page, {"files": [upload(jpeg(), "a.jpg")], "line": "Like this"})
    assert answer.status_code == 200
    assert "“a.jpg”: This file could not be kept just now." in said(answer)
    assert "Like this" in answer.content.decode()
    assert not Picture.objects.exists()
    assert f"the object store: {broken}" in caplog.text


def test_a_store_that_fails_shows_no_picture_and_the_day_pack_is_drawn(
    broken, couple, wedding, tmp_path
):
    row = {"file": "a/b.jpg", "small": "a/c.jpg", "width": 60, "height": 40, "digest": "d"}
    Picture.objects.create(wedding=wedding, key="one", **row)
    address = reverse("picture", args=[wedding.public_id, "one"])
    assert couple.get(address).status_code == (404 if broken == "NoSuchBucket" else 503)
    call_command("daypack", wedding.public_id, out=tmp_path / "pack.pdf")
    assert (tmp_path / "pack.pdf").stat().st_size > 10_000


@pytest.mark.parametrize("broken", ["no server"], indirect=True)
def test_removing_a_picture_while_the_store_fails_still_removes_its_row(
    broken, django_capture_on_commit_callbacks, db, caplog
):
    with django_capture_on_commit_callbacks(execute=True):
        store.forget("a/b.jpg")
    assert "Error calling forget" in caplog.text


def test_a_file_that_cannot_be_kept_is_refused_in_words(broken):
    with pytest.raises(BadFileError, match="could not be kept just now"):
        keep(upload(PDF, "list.pdf"), "thora-lukasz", pdf=True)


def test_the_check_before_going_online_is_content_with_a_private_bucket(bucket):
    assert pictures_are_kept_in_private() == []
    assert objects(bucket) == []


def test_the_check_says_that_strangers_could_read(bucket):
    everybody = {
        "Version": "2012-10-17",
        "Statement": [
            {"Effect": "Allow", "Principal": "*", "Action": "s3:*", "Resource": "arn:aws:s3:::*"}
        ],
    }
    bucket.put_bucket_policy(Bucket="pictures", Policy=json.dumps(everybody))
    (said,) = pictures_are_kept_in_private()
    assert said.id == "foreday.E003"


def test_the_check_says_that_what_is_erased_stays_as_an_old_version(bucket, wedding, photographer):
    old = {"Status": "Enabled"}
    bucket.put_bucket_versioning(Bucket="pictures", VersioningConfiguration=old)
    (told,) = pictures_are_kept_in_private()
    assert told.id == "foreday.W001"
    page = reverse("erase", args=[wedding.public_id])
    assert "Old versions of its pictures" not in said(photographer.get(page))
    kept = keep(upload(jpeg()), wedding.public_id)
    assert "Old versions of its pictures" in said(photographer.get(page))
    erase(wedding)
    assert objects(bucket) == []
    stays = bucket.list_object_versions(Bucket="pictures")["Versions"]
    assert f"studio-one/{kept.name}" in [each["Key"] for each in stays]


def test_the_check_says_that_nothing_can_be_kept(broken):
    (said,) = pictures_are_kept_in_private()
    assert said.id == "foreday.E001"
    assert broken in said.msg


def test_several_threads_keep_and_read_at_once(bucket):
    def round_trip(number):
        content = bytes([number]) * 100_000
        name = storages["pictures"].save(f"a/{number}.pdf", ContentFile(content))
        with storages["pictures"].open(name) as file:
            return file.read() == content

    with ThreadPoolExecutor(4) as pool:
        assert all(pool.map(round_trip, range(16)))


def test_a_season_moves_there_by_a_backup_and_comes_back_from_there(bucket, environment, tmp_path):
    """The same day pack, byte for byte; with its pictures, which lie nowhere else."""
    wedding, here = "demo-orchard-barn", place(tmp_path / "here")
    told(here, "demo", "--no-serve")
    told(here, "backup", tmp_path / "one.zip")
    there = here | environment
    told(there, "restore", tmp_path / "one.zip", "--replace")
    assert len(objects(bucket)) == 12
    shutil.rmtree(tmp_path / "here" / "pictures")
    pack = look(there, wedding)["pack"]
    told(there, "backup", tmp_path / "two.zip")
    back = place(tmp_path / "back")
    told(back, "restore", tmp_path / "two.zip")
    assert look(back, wedding)["pack"] == pack
    assert len(pack) > 100_000
