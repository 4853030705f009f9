"""FOREDAY_PICTURES: pictures in an object store that speaks S3, and not in the data folder.

Read by the settings, so that a wrong address is told before anything is served.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from importlib.util import find_spec
from typing import Any
from urllib.parse import urlsplit

from django.core.exceptions import ImproperlyConfigured

BUCKET = r"[a-z0-9][a-z0-9.-]{1,61}[a-z0-9]"  # as Amazon's manual of S3 names buckets
PART = r"[A-Za-z0-9_-][A-Za-z0-9._-]*"
ADDRESS = re.compile(rf"s3://(?P<bucket>{BUCKET})(?P<folder>(/{PART})*)/?")
KEYS = ("AWS_ACCESS_KEY_ID", "AWS_SECRET_ACCESS_KEY")
LOOPBACK = {"localhost", "127.0.0.1", "::1"}


def object_store(environment: Mapping[str, str]) -> dict[str, Any]:
    """The entry of STORAGES for the object store that the environment names.

    The names of keys, endpoint and region are those that every S3 program reads.
    Raises ImproperlyConfigured.
    """
    found = ADDRESS.fullmatch(environment["FOREDAY_PICTURES"])
    if not found:
        raise ImproperlyConfigured(
            "FOREDAY_PICTURES: not an address as s3://BUCKET or s3://BUCKET/FOLDER."
        )
    if missing := [name for name in KEYS if not environment.get(name)]:
        raise ImproperlyConfigured(f"FOREDAY_PICTURES needs {' and '.join(missing)} too.")
    if not (find_spec("storages") and find_spec("boto3")):
        raise ImproperlyConfigured(
            "FOREDAY_PICTURES needs two libraries more than most do: uv sync --group s3"
        )
    options = {
        "bucket_name": found["bucket"],
        "location": found["folder"].strip("/"),
        "access_key": environment[KEYS[0]],
        "secret_key": environment[KEYS[1]],
        "endpoint_url": endpoint(environment.get("AWS_ENDPOINT_URL_S3", "")),
        "region_name": environment.get("AWS_DEFAULT_REGION") or None,
    }
    return {"BACKEND": "studio.bucket.PrivateBucket", "OPTIONS": options}


def endpoint(address: str) -> str | None:
    """Where the store is, if it is not Amazon's. Pictures of guests travel under TLS alone."""
    if not address:
        return None
    try:
        parts = urlsplit(address)
        whole = parts.hostname and parts.port != 0
    except ValueError:
        whole = False
    if not whole or parts.scheme not in {"http", "https"}:
        raise ImproperlyConfigured("AWS_ENDPOINT_URL_S3: not an address as https://HOST.")
    if parts.scheme == "http" and parts.hostname not in LOOPBACK:
        raise ImproperlyConfigured(
            "AWS_ENDPOINT_URL_S3: http would carry pictures open to anybody between; take https."
        )
    return address
