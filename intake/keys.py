"""Names for rows and links that nobody can guess."""

import base64
import secrets

from django.utils.crypto import salted_hmac

TOKEN_BYTES = 20  # 160 bits


def new_public_id() -> str:
    return secrets.token_hex(5)


def new_nonce() -> str:
    return secrets.token_hex(16)


def new_key() -> str:
    return secrets.token_hex(6)


def token_of(purpose: str, value: str) -> str:
    """The secret of an address, which the secret key alone can make again (HMAC with SHA-256)."""
    digest = salted_hmac(purpose, value, algorithm="sha256").digest()
    return base64.urlsafe_b64encode(digest[:TOKEN_BYTES]).decode().rstrip("=")


def without_tail(token: str) -> str:
    """Mail programs take the full stop or the bracket behind a link for a part of it."""
    return token.rstrip("./,;:!?)>\"' ")
