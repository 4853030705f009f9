"""Names for rows and links that nobody can guess."""

import secrets


def new_public_id() -> str:
    return secrets.token_hex(5)


def new_nonce() -> str:
    return secrets.token_hex(16)


def new_key() -> str:
    return secrets.token_hex(6)
