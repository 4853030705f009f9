"""What `manage.py check --deploy` asks beyond Django's own questions."""

from __future__ import annotations

import secrets
from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Error, register
from django.core.checks import Warning as Caution
from django.core.files.base import ContentFile
from django.core.files.storage import storages


@register(deploy=True)
def pictures_are_kept_in_private(**_which: Any) -> list[CheckMessage]:
    """Writes, reads and removes an object, and asks for it as a stranger would."""
    if not settings.STORAGES["pictures"]["BACKEND"].endswith("PrivateBucket"):
        return []
    store, name, content = storages["pictures"], f"check/{secrets.token_hex(8)}", b"a check"
    try:
        store.save(name, ContentFile(content))
        try:
            with store.open(name) as file:
                whole = file.read() == content
            public = is_open_to_strangers(store, name)
        finally:
            store.delete(name)
    except OSError as error:
        words = f"FOREDAY_PICTURES: pictures cannot be kept there: {error.strerror}."
        return [Error(words, id="foreday.E001")]
    if not whole:
        return [Error("FOREDAY_PICTURES: what is kept comes back changed.", id="foreday.E002")]
    if public:
        words = "FOREDAY_PICTURES: anybody can read what is kept there. Make the bucket private."
        return [Error(words, id="foreday.E003")]
    if keeps_old_versions(store):
        words = (
            "FOREDAY_PICTURES: the bucket keeps old versions, so that what is erased here stays "
            "there. Turn its versioning off, or have it remove old versions by a rule of its own."
        )
        return [Caution(words, id="foreday.W001")]
    return []


def is_open_to_strangers(store: Any, name: str) -> bool:
    from botocore.exceptions import ClientError

    stranger = store.unsigned_connection.meta.client
    key = f"{store.location}/{name}".lstrip("/")
    try:
        stranger.get_object(Bucket=store.bucket_name, Key=key)
    except ClientError:
        return False
    return True


def keeps_old_versions(store: Any) -> bool:
    """False also where the store does not say, or not to these keys."""
    from botocore.exceptions import BotoCoreError, ClientError

    client = store.connection.meta.client
    try:
        return client.get_bucket_versioning(Bucket=store.bucket_name).get("Status") == "Enabled"
    except (BotoCoreError, ClientError):
        return False
