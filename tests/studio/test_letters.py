"""Requests in letters that cannot be read get the calm page for that, on either database."""

from wsgiref.util import setup_testing_defaults

import pytest
from django.test.client import BOUNDARY, MULTIPART_CONTENT, encode_multipart

from studio.wsgi import application

FORM = encode_multipart(BOUNDARY, {"name": "Larkmoor"})


@pytest.mark.parametrize("charset", ["hex", "utf-16", "utf-7"])
@pytest.mark.parametrize("kind", [MULTIPART_CONTENT, "application/x-www-form-urlencoded"])
def test_a_form_in_other_letters_than_utf_8_is_refused(photographer, charset, kind):
    answer = photographer.generic("POST", "/studio", FORM, f"{kind}; charset={charset}")
    assert answer.status_code == 400


@pytest.mark.parametrize("charset", ["utf-8", "UTF8"])
def test_a_form_that_says_what_it_is_in_is_read(photographer, charset):
    answer = photographer.generic(
        "POST", "/studio", FORM, f"{MULTIPART_CONTENT}; charset={charset}"
    )
    assert answer.status_code == 200
    assert "Larkmoor" in answer.content.decode()


def test_a_button_with_a_nul_in_it_is_no_server_error(wedding, photographer):
    address = f"/w/{wedding.public_id}/groups"
    assert photographer.post(address, {"do": "pin:last:a\0"}).status_code in {200, 302, 400}


def test_a_sign_in_with_a_nul_in_it_is_no_server_error(db, client):
    client.cookies["sessionid"] = "a-sign-in\0"  # which a browser is told to write as \000
    assert client.get("/sign-in").status_code == 400


def answered(kind):
    """The status of the server's own application, which is asked before Django is."""
    environ = {"PATH_INFO": "/sign-in", "CONTENT_TYPE": kind}
    setup_testing_defaults(environ)
    said = []
    b"".join(application(environ, lambda status, headers: said.append(status)))
    return said


@pytest.mark.parametrize(
    "kind",
    [
        "text/plain; x*=nowhere'en'a",
        "text/plain; x*=idna'en'a",
        f"text/plain; x*{'9' * 5000}=a",
        f'text/plain; x="{";" * 5000}',  # Python takes four times as long for twice as many
    ],
    ids=["no-such-letters", "not-letters", "endless-number", "long"],
)
def test_a_kind_of_body_that_nobody_can_read_is_refused_and_no_server_error(db, kind):
    assert answered(kind) == ["400 Bad Request"]


@pytest.mark.parametrize("kind", ["", "application/x-www-form-urlencoded", MULTIPART_CONTENT])
def test_a_kind_of_body_that_browsers_send_is_heard(db, kind):
    assert answered(kind) == ["200 OK"]
