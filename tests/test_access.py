"""Who may open what: every address of the project, for everybody who might try it.

A new address fails here until somebody has decided who may open it.
"""

import pytest
from django.conf import settings
from django.contrib.auth.models import User
from django.contrib.messages import get_messages
from django.test import Client
from django.urls import get_resolver, reverse
from django.utils import timezone

from intake.links import COOKIE, link_path, link_token
from intake.models import Picture
from intake.steps import STEPS
from intake.store import put
from planning.calendar_links import address_path
from planning.kinds import copy_kind
from planning.models import (
    Assigned,
    CalendarAddress,
    KindOfDay,
    KitItem,
    SheetLink,
    StudioPicture,
)
from planning.paper.sheets import SHEETS
from planning.sheet_links import sheet_path
from tests.asked import ask, kept_as
from tests.conftest import member, owner
from tests.page import said

SIGN_IN = "sign in"  # led to the sign-in page
CALM = "calm"  # the page of a link that opens nothing
OPEN = "open"
REFUSED = "refused"  # signed in, and not as somebody whose page it is
NOTHING = "nothing"  # as if there were no such wedding
VISITORS = ("stranger", "couple", "other couple", "owner", "photographer")
VISITORS += ("their second", "another's second")
# Each address for each of them, in that order.
OUTSIDE = (SIGN_IN, SIGN_IN, SIGN_IN)
COUPLES = (CALM, OPEN, CALM, OPEN, OPEN, CALM, CALM)
OWNERS = (*OUTSIDE, OPEN, REFUSED, REFUSED, REFUSED)
PHOTOGRAPHERS = (*OUTSIDE, OPEN, OPEN, REFUSED, REFUSED)
SECONDS = (*OUTSIDE, OPEN, OPEN, OPEN, NOTHING)
ACCOUNTS = (*OUTSIDE, OPEN, OPEN, OPEN, OPEN)
EVERYBODYS = (OPEN,) * len(VISITORS)
LINK_HOLDERS = (CALM,) * len(VISITORS)  # none of them holds it: tests/planning/test_sheet_links.py
TABLE = {
    "health": EVERYBODYS,  # it says ok, or not ok
    "versions": PHOTOGRAPHERS,
    "login": EVERYBODYS,
    "logout": ACCOUNTS,
    "password": ACCOUNTS,
    "choose_password": EVERYBODYS,  # to whoever has the secret in it: tests/planning/test_people.py
    "people": OWNERS,
    "person": OWNERS,
    "wedding_people": PHOTOGRAPHERS,
    "open_link": EVERYBODYS,  # to whoever has the secret in it: tests/intake/test_links.py
    "steps": COUPLES,
    "step": COUPLES,
    "pictures": COUPLES,
    "picture": COUPLES,
    "small_picture": COUPLES,
    "paste": COUPLES,
    "read_through": COUPLES,
    "own_file": COUPLES,
    "sent_own_file": COUPLES,
    "language": COUPLES,
    "season": ACCOUNTS,
    "studio": OWNERS,
    "kinds": PHOTOGRAPHERS,
    "kit": PHOTOGRAPHERS,
    "new_kit_item": PHOTOGRAPHERS,
    "kit_item": PHOTOGRAPHERS,
    "bag": PHOTOGRAPHERS,
    "questions": PHOTOGRAPHERS,
    "preview_questions": PHOTOGRAPHERS,
    "wedding_questions": PHOTOGRAPHERS,
    "kind": PHOTOGRAPHERS,
    "remove_kind": PHOTOGRAPHERS,
    "new_wedding": PHOTOGRAPHERS,
    "booking": PHOTOGRAPHERS,
    "erase": OWNERS,
    "link": PHOTOGRAPHERS,
    "answers": PHOTOGRAPHERS,
    "meeting": PHOTOGRAPHERS,
    "agreed": COUPLES,
    "words_json": COUPLES,
    "words_pdf": COUPLES,
    "studio_pictures": PHOTOGRAPHERS,
    "studio_picture": PHOTOGRAPHERS,
    "small_studio_picture": PHOTOGRAPHERS,
    "groups": PHOTOGRAPHERS,
    "light": PHOTOGRAPHERS,
    "visit": PHOTOGRAPHERS,
    "day": PHOTOGRAPHERS,
    "late": PHOTOGRAPHERS,
    "phone": PHOTOGRAPHERS,
    "map": PHOTOGRAPHERS,
    "ready": PHOTOGRAPHERS,
    "wedding_ready_items": PHOTOGRAPHERS,
    "ready_items": PHOTOGRAPHERS,
    "insurance": PHOTOGRAPHERS,
    "due": PHOTOGRAPHERS,
    "first_weddings": PHOTOGRAPHERS,
    "experience": PHOTOGRAPHERS,
    "papers": PHOTOGRAPHERS,
    "phone_links": PHOTOGRAPHERS,
    "sheet": LINK_HOLDERS,
    "open_sheet": EVERYBODYS,  # to whoever has the secret: tests/planning/test_sheet_links.py
    "paper": PHOTOGRAPHERS,
    "second_photographer": SECONDS,
    "calendar": PHOTOGRAPHERS,
    "subscription": PHOTOGRAPHERS,
    "season_calendar": PHOTOGRAPHERS,
    "subscribed": EVERYBODYS,  # to whoever has the secret: tests/planning/test_season_calendar.py
}
ONLY_WRITES = {"logout", "language", "phone_links"}
WRITES = ONLY_WRITES | {"step", "paste", "read_through", "studio", "new_wedding", "booking", "link"}
WRITES |= {"map", "groups", "day", "visit", "kind", "remove_kind", "meeting", "agreed"}
WRITES |= {"questions", "wedding_questions", "own_file", "answers"}
WRITES |= {"erase"}
WRITES |= {"kit", "new_kit_item", "kit_item", "bag"}
WRITES |= {"people", "person", "wedding_people", "password", "subscription"}
WRITES |= {"ready", "wedding_ready_items", "ready_items", "insurance", "experience"}
SIGNS_IN = {"login", "choose_password"}  # they take a form from anybody
WRITES |= {"pictures", "studio_pictures", "map", "groups", "day", "visit", "kind", "remove_kind"}
OWN_KIND = "own-0a1b2c3d4e5f"


def patterns(resolver=None):
    for each in (resolver or get_resolver()).url_patterns:
        if hasattr(each, "url_patterns"):
            yield from patterns(each)
        else:
            yield each


def calendar_address(_wedding):
    user = User.objects.filter(username="marigold").first() or owner(User)
    return address_path(CalendarAddress.objects.get_or_create(user=user)[0])


def sheet_link(wedding):
    """Of a wedding that is not over, whenever this is run."""
    wedding.days.update(date=timezone.now().date())
    return SheetLink.objects.get_or_create(wedding=wedding, sheet="second-photographer")[0]


def sheet_address(wedding):
    return sheet_path(sheet_link(wedding))


# Open without a sign-in to whoever knows the secret in them, which these tests do.
SECRETS = {"open_link": link_path, "subscribed": calendar_address, "open_sheet": sheet_address}
MADE_FIRST = SECRETS | {"sheet": lambda wedding: reverse("sheet", args=[sheet_link(wedding).key])}


def addresses(name, wedding):
    """Every address of a name, for one wedding."""
    (pattern,) = [each for each in patterns() if each.name == name]
    takes = set(pattern.pattern.converters)
    if name == "paper":
        keys = [sheet.key for sheet in SHEETS if sheet.key != "second-photographer"]
        return [reverse(name, args=[wedding.public_id, key]) for key in keys]
    if name in MADE_FIRST:
        return [MADE_FIRST[name](wedding)]
    if takes == {"public_id", "key"}:
        return [reverse(name, args=[wedding.public_id, f"key-of-{wedding.public_id}"])]
    if "slug" in takes:
        return [reverse(name, args=[wedding.public_id, step.slug]) for step in STEPS]
    if name == "kit_item":
        return [reverse(name, args=["zoom"])]
    if "kind" in takes:
        return [reverse(name, args=[kind]) for kind in KitItem.Kind.values]
    if "key" in takes:
        keys = [OWN_KIND] if name == "remove_kind" else [OWN_KIND, "one_place"]
        return [reverse(name, args=[key]) for key in keys]
    if "pk" in takes:
        return [reverse(name, args=[user.pk]) for user in User.objects.all()]
    if "uidb64" in takes:
        return [reverse(name, args=["MQ", "cut-off"])]
    return [reverse(name, args=[wedding.public_id] if takes else [])]


@pytest.fixture
def visitors(wedding, other, django_user_model, kept_files):
    """In the order of the table; cookies go to every address, as if browsers ignored paths."""
    copy_kind("small", OWN_KIND)
    KitItem.objects.create(key="zoom", kind="lens", title="Zoom", wide=24, long=70, mount="M")
    for model in (Picture, StudioPicture):
        files = put((b"large", b"small", (60, 40)), wedding.public_id, "digest").as_row()
        model.objects.create(wedding=wedding, key=f"key-of-{wedding.public_id}", **files)
    kept = put((b"large", b"small", (60, 40)), wedding.public_id, "digest")
    ask(wedding, "file", key=f"key-of-{wedding.public_id}", answer=kept_as(kept, "list.pdf"))
    clients = {visitor: Client() for visitor in VISITORS}
    for visitor, whose in (("couple", wedding), ("other couple", other)):
        clients[visitor].get(link_path(whose))
        clients[visitor].cookies[COOKIE]["path"] = "/"
    users = {"owner": owner(django_user_model, "marigold")}
    users["photographer"] = member(django_user_model, "PHOTOGRAPHER", "tansy")
    for visitor, whose in (("their second", wedding), ("another's second", other)):
        users[visitor] = member(django_user_model, "SECOND", f"second-{whose.public_id}")
        Assigned.objects.create(wedding=whose, user=users[visitor])
    for visitor, user in users.items():
        clients[visitor].force_login(user)
    return tuple(clients.values())


def assert_answer(response, expected):
    if expected == SIGN_IN:
        assert response.status_code == 302
        assert response["Location"].startswith(reverse("login"))
        assert not response.content
    elif expected == CALM:
        assert response.status_code == 404
        assert "This link does not open anything" in said(response)
    elif expected == REFUSED:
        assert response.status_code == 403
        assert "Not yours to open" in said(response)
    elif expected == NOTHING:
        assert response.status_code == 404
        assert "Nothing is here" in said(response)
    else:
        assert response.status_code in (200, 302)
        assert not response.get("Location", "").startswith(f"{reverse('login')}?")


def test_every_address_is_in_the_table_and_has_a_name():
    assert all(each.name for each in patterns())
    assert {each.name for each in patterns()} == set(TABLE)


@pytest.mark.parametrize("name", [name for name in TABLE if name not in ONLY_WRITES])
def test_a_page_opens_to_whom_it_should(name, wedding, visitors):
    for client, expected in zip(visitors, TABLE[name], strict=True):
        for address in addresses(name, wedding):
            response = client.get(address)
            assert_answer(response, expected)
            assert client.head(address).status_code == response.status_code


@pytest.mark.parametrize("name", sorted(WRITES))
def test_a_form_is_taken_from_whom_it_should_be(name, wedding, visitors):
    before = link_token(wedding)
    for client, expected in zip(visitors, TABLE[name], strict=True):
        if expected != OPEN:
            for address in addresses(name, wedding):
                assert_answer(client.post(address, {"first": "Mallory", "do": "save"}), expected)
    wedding.refresh_from_db()
    assert link_token(wedding) == before
    assert wedding.names == "Þóra & Łukasz"
    assert not wedding.steps.exists()
    assert wedding.sent_at is None
    assert [kind.key for kind in KindOfDay.objects.all()] == [OWN_KIND]
    assert [item.key for item in KitItem.objects.all()] == ["zoom"]


@pytest.mark.parametrize("name", [name for name in TABLE if TABLE[name] == COUPLES])
def test_another_couple_hears_exactly_what_a_wrong_link_says(name, wedding, visitors):
    other_couple = visitors[2]
    typed = {"first": "Mallory", "do": "save"}
    for address in addresses(name, wedding):
        nobodys = address.replace(wedding.public_id, "nobody")
        for way in (other_couple.get, lambda where: other_couple.post(where, typed)):
            theirs, wrong = way(address), way(nobodys)
            assert theirs.status_code == wrong.status_code
            assert theirs.content == wrong.content
            assert dict(theirs.headers) == dict(wrong.headers)


@pytest.mark.parametrize("name", sorted(set(TABLE) - WRITES - SIGNS_IN))
def test_a_page_that_takes_no_form_refuses_one(name, wedding, visitors):
    for address in addresses(name, wedding):
        assert visitors[3].post(address).status_code == 405


def test_nothing_of_a_wedding_shows_on_the_way_to_the_sign_in(wedding, visitors):
    for name, expected in TABLE.items():
        if expected[:3] == OUTSIDE:
            for address in addresses(name, wedding):
                for client in visitors[:3]:
                    page = client.get(address, follow=True).content.decode()
                    assert "Þóra" not in page
                    assert "Łukasz" not in page


def test_an_account_that_is_nobodys_opens_nothing_but_the_way_out(wedding, django_user_model):
    weed, client = django_user_model.objects.create_user("weed"), Client()
    client.force_login(weed)
    for name, expected in TABLE.items():
        for address in addresses(name, wedding):
            response = client.post(address) if name in ONLY_WRITES else client.get(address)
            client = Client()  # signed out, or with a link opened
            client.force_login(weed)
            if name == "logout" or expected == EVERYBODYS:
                assert_answer(response, OPEN)
            else:
                assert_answer(response, expected[0] if expected[0] == CALM else REFUSED)


def test_nothing_of_a_wedding_shows_to_somebody_elses_second(wedding, visitors):
    for name in set(TABLE) - set(SECRETS):
        for address in addresses(name, wedding):
            page = visitors[-1].get(address, follow=True).content
            assert "Þóra".encode() not in page


def test_signing_out_ends_it(wedding, visitors):
    photographer = visitors[3]
    assert photographer.post(reverse("logout")).status_code == 302
    assert_answer(photographer.get(reverse("season")), SIGN_IN)
    assert_answer(photographer.get(reverse("steps", args=[wedding.public_id])), CALM)


def test_signing_in_leads_nowhere_else(wedding, django_user_model):
    django_user_model.objects.create_user("thora", password="long enough, and not a name")
    typed = {"username": "thora", "password": "long enough, and not a name"}
    for away in ("https://elsewhere.example/", "//elsewhere.example", "javascript:alert(1)"):
        client = Client()
        response = client.post(reverse("login"), typed | {"next": away})
        assert response["Location"] == reverse("season")


def test_a_new_page_is_shut_unless_somebody_opens_it():
    assert "django.contrib.auth.middleware.LoginRequiredMiddleware" in settings.MIDDLEWARE


def test_a_form_without_its_secret_is_refused_on_every_address(wedding, django_user_model):
    client = Client(enforce_csrf_checks=True)
    client.force_login(owner(django_user_model))
    for name in sorted(WRITES | SIGNS_IN):
        for address in addresses(name, wedding):
            response = client.post(address, {"first": "Mallory", "password": "a secret of mine"})
            assert response.status_code == 403
            assert "This page had been open too long" in said(response)
            assert "a secret of mine" not in response.content.decode()
            assert not list(get_messages(response.wsgi_request))
    wedding.refresh_from_db()
    assert wedding.names == "Þóra & Łukasz"


@pytest.mark.parametrize(
    "address",
    ["/q", "/q/", "/w/", "/admin/", "/.git/config", "/static/../studio/settings.py", "/x"],
)
def test_an_address_that_is_none_is_told_calmly(db, address):
    response = Client().get(address)
    assert response.status_code == 404
    assert "Nothing is here" in said(response)
