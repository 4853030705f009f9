"""Which passwords are refused."""

import gzip
from pathlib import Path

import django.contrib.auth
import pytest
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError

LIST = Path(django.contrib.auth.__file__).parent / "common-passwords.txt.gz"


@pytest.mark.parametrize(
    "password",
    ["short", "password1234", "Password!2027", "sunshine 2027!", "dragondragon", "123456123456"],
)
def test_what_is_guessed_first_is_refused(password):
    with pytest.raises(ValidationError):
        validate_password(password)


@pytest.mark.parametrize(
    "password",
    [
        "three pale birds at noon",
        "  spaces at both ends  ",
        "łódź-þorn-ŵyn-βήτα",
        "x" * 11 + "y",
        "🌿🌿🌻🌿🌿🌻🌾🌾🌾🌾🌿🌻!a",
        "correct horse " * 60,
    ],
)
def test_any_letters_in_any_order_will_do(password):
    validate_password(password)


def test_a_thousandfold_of_the_common_ones_is_refused_at_the_length_we_ask_for():
    """OWASP ASVS 5.0, 6.2.4: at least the 3,000 most common that match the policy."""
    with gzip.open(LIST, "rt") as common:
        words = [word for word in common.read().split() if word.isalpha() and len(word) > 3]
    for word in words[:3000]:
        with pytest.raises(ValidationError):
            validate_password(word.ljust(12, "1"))
