"""Pictures in an object store: private objects without an address, sent by a view as ever.

Needs the dependency group `s3`. What goes wrong is an OSError, as with a disk, so that whoever
keeps files knows one kind of failure.
"""

from __future__ import annotations

import errno
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from boto3.exceptions import Boto3Error
from botocore.config import Config
from botocore.exceptions import BotoCoreError, ClientError
from django.core.files.base import ContentFile, File
from storages.backends.s3 import S3Storage

PATIENCE = {"connect_timeout": 5, "read_timeout": 20, "retries": {"total_max_attempts": 3}}
# Stores that are not Amazon's may not know the checksums that its library adds since 2025; TLS
# already guards every byte on its way.
SUMS = {
    "request_checksum_calculation": "when_required",
    "response_checksum_validation": "when_required",
}


class PrivateBucket(S3Storage):
    """Objects under names that nobody guesses, which nobody opens without the studio's keys.

    No access list is set: a bucket is private unless somebody opened it, which the check in
    studio/checks.py looks for.
    """

    def __init__(self, **options: Any) -> None:
        style = "path" if options.get("endpoint_url") else "auto"
        how = Config(signature_version="s3v4", s3={"addressing_style": style}, **PATIENCE, **SUMS)
        options.setdefault("object_parameters", {"CacheControl": "private, no-store"})
        super().__init__(client_config=how, default_acl=None, file_overwrite=True, **options)

    @property
    def bucket(self) -> Any:
        """One for each thread, since boto3's resources are not to be shared."""
        return self.connection.Bucket(self.bucket_name)

    def url(self, name: str | None, *_more: object, **_options: object) -> str:
        raise ValueError("A private file has no address of its own; a view sends it.")

    def _open(self, name: str, mode: str = "rb") -> File:
        """The whole of it at once: an upload is 20 MB at most, and a view sends all."""
        with reaching(), super()._open(name, mode) as found:
            return ContentFile(found.read(), name)

    def _save(self, name: str, content: File) -> str:
        with reaching():
            return super()._save(name, content)

    def delete(self, name: str) -> None:
        with reaching():
            super().delete(name)

    def exists(self, name: str) -> bool:
        with reaching():
            return super().exists(name)

    def size(self, name: str) -> int:
        with reaching():
            return super().size(name)

    def listdir(self, path: str) -> tuple[list[str], list[str]]:
        with reaching():
            return super().listdir(path)


@contextmanager
def reaching() -> Iterator[None]:
    """Raises OSError where the store does not do what it was asked."""
    try:
        yield
    except ClientError as error:
        raise trouble(error.response.get("Error", {}).get("Code", "ClientError")) from error
    except (BotoCoreError, Boto3Error) as error:
        raise trouble(type(error).__name__) from error


def trouble(kind: str) -> OSError:
    """`kind` is the store's own word for it, such as NoSuchBucket."""
    return OSError(errno.EIO, f"the object store: {kind}")
