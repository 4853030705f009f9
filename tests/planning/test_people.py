"""The people of the studio: who may sign in, as what, and with which password."""

from datetime import timedelta

import pytest
from django.contrib.auth import tokens
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from planning.calendar_links import address_of, address_path, make_address
from planning.models import Assigned
from planning.people_form import LAST_OWNER, NewPersonForm, PersonForm
from studio.member_models import Role, role_of
from studio.password_views import READING
from studio.settings import AXES_FAILURE_LIMIT
from tests.conftest import member, owner
from tests.page import said

PEOPLE = reverse("people")
LONG = "three pale birds at noon"


def link_for(client, user):
    """The address that the owner is shown once."""
    page = client.post(reverse("person", args=[user.pk]), {"do": "link"})
    return page.context["url"].removeprefix("http://testserver")


def choose(client, address, new=LONG, again=None):
    """Opens the link as a browser does, and sends the form behind it."""
    form = client.get(address, follow=True).request["PATH_INFO"]
    return client.post(form, {"new_password1": new, "new_password2": again or new})


def test_a_new_person_chooses_a_password_behind_a_link_and_signs_in(photographer):
    photographer.post(PEOPLE, {"username": "tansy", "role": "2"})
    tansy = User.objects.get(username="tansy")
    assert role_of(tansy) == Role.PHOTOGRAPHER
    theirs = Client()
    assert choose(theirs, link_for(photographer, tansy)).url == reverse("login")
    page = theirs.post(reverse("login"), {"username": "tansy", "password": LONG}, follow=True)
    assert page.request["PATH_INFO"] == reverse("season")


def test_the_sign_in_page_says_that_the_password_is_kept(photographer, django_user_model):
    tansy, theirs = member(django_user_model, "SECOND", "tansy"), Client()
    choose(theirs, link_for(photographer, tansy))
    assert "Your password is kept" in said(theirs.get(reverse("login")))


def test_a_link_works_once(photographer, django_user_model):
    address = link_for(photographer, member(django_user_model, "SECOND", "tansy"))
    choose(Client(), address)
    assert "has been used" in said(Client().get(address, follow=True))


def test_a_link_is_too_old_after_three_days(photographer, django_user_model, monkeypatch):
    address = link_for(photographer, member(django_user_model, "SECOND", "tansy"))
    now = tokens.datetime.now()

    class Later(tokens.datetime):
        @classmethod
        def now(cls, tz=None):
            return now + timedelta(days=3, minutes=1)

    monkeypatch.setattr(tokens, "datetime", Later)
    assert "older than three days" in said(Client().get(address, follow=True))


@pytest.mark.parametrize("address", ["/password/MQ/x-y", "/password/%00/x", "/password/MTIz/set"])
def test_a_link_that_was_cut_off_is_told_calmly(db, address):
    assert "was cut off" in said(Client().get(address, follow=True))


def test_a_link_is_on_no_page_that_was_not_asked_for_it(photographer, django_user_model):
    page = photographer.get(
        reverse("person", args=[member(django_user_model, "SECOND", "tansy").pk])
    )
    assert "/password/" not in page.content.decode().replace(reverse("password") + '"', "")
    assert "no-store" in page["Cache-Control"]


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"username": "", "role": "1"}, "Name to sign in with"),
        ({"username": "MARIGOLD", "role": "1"}, "There is an account of that name already"),
        ({"username": "a b", "role": "1"}, "valid username"),
        ({"username": "x" * 151, "role": "1"}, "150"),
        ({"username": "nul\0", "role": "1"}, "Null characters"),
        ({"username": "tansy", "role": "0"}, "role"),
        ({"username": "tansy", "role": "9"}, "role"),
        ({"username": "tansy"}, "role"),
    ],
)
def test_a_person_who_cannot_be_added_is_told_and_nobody_is_made(photographer, typed, told):
    page = photographer.post(PEOPLE, typed)
    assert page.status_code == 200
    assert page.context["errors"]
    assert User.objects.count() == 1
    if typed["username"].isalnum():
        assert typed["username"] in page.content.decode()
    if told != "role":
        assert told in said(page)


def test_a_password_that_is_short_or_common_or_mistyped_is_told(photographer, django_user_model):
    address = link_for(photographer, member(django_user_model, "SECOND", "tansy"))
    for new, again in [("short", None), ("password1234", None), (LONG, LONG + "x")]:
        client = Client()
        page = choose(client, address, new, again)
        assert page.status_code == 200
        assert "Type the passwords again" in said(page)
        assert LONG not in page.content.decode()


def test_the_last_owner_stays_owner(photographer):
    own = User.objects.get()
    for typed in ({"role": "2", "is_active": "on"}, {"role": "3"}):
        page = photographer.post(reverse("person", args=[own.pk]), typed | {"do": "save"})
        assert "Somebody must own the studio" in said(page)
        assert role_of(User.objects.get()) == Role.OWNER


def test_of_two_owners_who_put_each_other_down_at_one_moment_one_stays(db, django_user_model):
    pair = [member(django_user_model, "OWNER", name) for name in ("tansy", "yarrow")]
    both = [PersonForm({"role": "2", "is_active": "on"}, user=user) for user in pair]
    assert all(form.is_valid() for form in both)  # each was looked at before the other was kept
    assert [form.save() for form in both] == [True, False]
    assert [role_of(user) for user in User.objects.order_by("pk")] == [2, 3]
    assert str(LAST_OWNER) in both[1].errors["role"]


def test_a_name_that_two_take_at_one_moment_is_one_accounts(db):
    both = [NewPersonForm({"username": name, "role": "1"}) for name in ("tansy", "Tansy")]
    assert all(form.is_valid() for form in both)
    assert [bool(form.save()) for form in both] == [True, False]
    assert User.objects.get().username == "tansy"


def test_an_owner_can_hand_the_studio_on(photographer, django_user_model):
    member(django_user_model, "OWNER", "tansy")
    own = User.objects.get(username="marigold")
    photographer.post(reverse("person", args=[own.pk]), {"role": "2", "is_active": "on"})
    assert role_of(User.objects.get(pk=own.pk)) == Role.PHOTOGRAPHER
    assert photographer.get(PEOPLE).status_code == 403


def test_somebody_who_may_not_sign_in_any_more_is_out_at_once(photographer, django_user_model):
    tansy, theirs = member(django_user_model, "PHOTOGRAPHER", "tansy"), Client()
    theirs.force_login(tansy)
    assert theirs.get(reverse("season")).status_code == 200
    photographer.post(reverse("person", args=[tansy.pk]), {"role": "2"})
    assert theirs.get(reverse("season")).status_code == 302


def test_whoever_may_sign_in_again_has_to_on_every_browser(photographer, django_user_model):
    """The phone that was lost meanwhile does not come back in by itself."""
    tansy, theirs = member(django_user_model, "PHOTOGRAPHER", "tansy"), Client()
    theirs.force_login(tansy)
    for again in ({}, {"is_active": "on"}):
        photographer.post(reverse("person", args=[tansy.pk]), {"role": "2"} | again)
    assert theirs.get(reverse("season")).status_code == 302
    assert photographer.get(reverse("season")).status_code == 200


def test_whoever_may_sign_in_again_needs_a_new_address_of_the_calendar(
    photographer, django_user_model
):
    """The phone that was lost has the old one."""
    tansy = member(django_user_model, "PHOTOGRAPHER", "tansy")
    make_address(tansy)
    old = address_path(address_of(tansy))
    assert Client().get(old).status_code == 200
    for again in ({}, {"is_active": "on"}):
        photographer.post(reverse("person", args=[tansy.pk]), {"role": "2"} | again)
    assert Client().get(old).status_code == 404


def test_a_link_that_was_given_before_opens_nothing_where_the_account_is_shut(
    photographer, django_user_model
):
    tansy = member(django_user_model, "PHOTOGRAPHER", "tansy")
    address = link_for(photographer, tansy)
    photographer.post(reverse("person", args=[tansy.pk]), {"role": "2"})
    choose(Client(), address)
    tansy.refresh_from_db()
    assert not tansy.check_password(LONG)


def test_changing_the_password_signs_other_browsers_out(db, django_user_model):
    own = owner(django_user_model)
    own.set_password(LONG)
    own.save()
    here, there = Client(), Client()
    for client in (here, there):
        client.force_login(own)
    new = {"old_password": LONG, "new_password1": LONG + "!", "new_password2": LONG + "!"}
    page = here.post(reverse("password"), new, follow=True)
    assert "Your password is changed" in said(page)
    assert there.get(reverse("season")).status_code == 302


def test_the_old_password_is_asked_for(photographer):
    new = {"old_password": "guess", "new_password1": LONG, "new_password2": LONG}
    page = photographer.post(reverse("password"), new)
    assert page.status_code == 200
    assert not User.objects.get().check_password(LONG)


def test_a_second_photographer_finds_their_weddings_and_no_others(
    wedding, other, photographer, django_user_model
):
    tansy, theirs = member(django_user_model, "SECOND", "tansy"), Client()
    theirs.force_login(tansy)
    assert "not put down for any wedding" in said(theirs.get(reverse("season")))
    put_down = reverse("wedding_people", args=[wedding.public_id])
    photographer.post(put_down, {"people": [tansy.pk]})
    page = said(theirs.get(reverse("season")))
    assert "Þóra" in page
    assert "Wanjirũ" not in page
    assert "Studio" not in page
    photographer.post(put_down, {})
    assert not Assigned.objects.exists()
    assert "Þóra" not in said(theirs.get(reverse("season")))


@pytest.mark.parametrize("sent", ["x", "\0", "999999999999999999999", "1"])
def test_only_a_second_photographer_can_be_put_down(wedding, photographer, sent):
    page = photographer.post(reverse("wedding_people", args=[wedding.public_id]), {"people": sent})
    assert page.status_code == 200
    assert not Assigned.objects.exists()


@pytest.mark.parametrize("pk", ["0", "999999999999999999999999"])
def test_an_account_that_is_none_is_told_calmly(photographer, pk):
    assert photographer.get(f"{PEOPLE}/{pk}").status_code == 404


def test_an_account_made_before_there_were_roles_owns_the_studio(db):
    from importlib import import_module

    from django.apps import apps
    from django.db import connection

    user = User.objects.create_user("old")
    old_accounts = import_module("studio.migrations.0006_member").who_was_here_owns
    old_accounts(apps, connection.schema_editor())
    assert role_of(user) == Role.OWNER


def test_whoever_guesses_at_the_old_password_is_stopped_as_at_the_sign_in(photographer):
    new = {"old_password": "guess", "new_password1": LONG, "new_password2": LONG}
    tries = [photographer.post(reverse("password"), new) for _ in range(AXES_FAILURE_LIMIT)]
    assert [answer.status_code for answer in tries] == [200] * (AXES_FAILURE_LIMIT - 1) + [429]
    assert photographer.post(reverse("password"), new).status_code == 429


def test_guesses_at_the_old_password_shut_nobody_out_of_the_sign_in(photographer):
    user = User.objects.get()
    user.set_password(LONG)
    user.save()
    photographer.force_login(user)
    new = {"old_password": "guess", "new_password1": LONG, "new_password2": LONG}
    for _ in range(AXES_FAILURE_LIMIT + 1):
        photographer.post(reverse("password"), new)
    page = photographer.post(reverse("password"), new | {"old_password": LONG})
    assert page.status_code == 429
    assert photographer.get(reverse("season")).status_code == 200
    there = Client().post(reverse("login"), {"username": "marigold", "password": LONG})
    assert there.status_code == 302


def test_one_old_password_is_read_at_a_time_for_an_address(photographer):
    new = {"old_password": "guess", "new_password1": LONG, "new_password2": LONG}
    with READING.one("127.0.0.1"):
        page = photographer.post(reverse("password"), new, follow=True)
    assert "Try again in a few seconds" in said(page)
