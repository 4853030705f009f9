"""The studio's policies as they are typed, and what cannot be."""

import pytest

from intake.models import Wedding
from planning.insurance_form import MOST_POLICIES
from planning.models import Policy
from studio.models import Studio
from tests.page import Page, fields, said

PAGE = "/insurance"
TYPED = {
    "policies-0-kind": "liability",
    "policies-0-insurer": "Larkmoor Mutual",
    "policies-0-number": "LM 4100",
    "policies-0-starts": "1 January 2027",
    "policies-0-ends": "31/12/2027",
    "policies-0-countries": "uk, Norway",
}


def press(client, **typed):
    return client.post(PAGE, fields(client, PAGE) | typed)


def test_a_policy_is_kept_and_shown_again_unchanged(photographer):
    assert press(photographer, **TYPED).status_code == 302
    policy = Policy.objects.get()
    assert (policy.kind, policy.insurer, f"{policy.ends}") == (
        "liability",
        "Larkmoor Mutual",
        "2027-12-31",
    )
    assert policy.countries == ["GB", "NO"]
    assert fields(photographer, PAGE)["policies-0-countries"] == ["Britain (UK), Norway"]
    assert press(photographer).status_code == 302
    assert Policy.objects.get().countries == ["GB", "NO"]


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        (
            "ends",
            "1 June 2026",
            "It ends on 1 June 2026, before it begins on 1 January 2027: look at both dates.",
        ),
        ("ends", "31 February 2027", "Enter a date that exists"),
        ("ends", "", "enter something here"),
        ("starts", "1 January 3027", "Look at the year"),
        ("insurer", "", "enter something here"),
        ("insurer", "x" * 121, "Shorten this to 120 characters"),
        ("kind", "boat", "choose one that is in the list"),
        ("countries", "Norwey", "“Norwey”: write its English name, or its two letters like NO."),
        ("countries", "x" * 1001, "Shorten this to 1000 characters"),
    ],
)
def test_what_cannot_be_is_told_beside_its_box_and_stays(photographer, field, typed, words):
    response = press(photographer, **TYPED | {f"policies-0-{field}": typed})
    assert response.status_code == 200
    assert words in said(response)
    assert f"#id_policies-0-{field}" in Page(response).links
    if field != "kind":  # a list shows no choice that it has not
        assert Page(response).fields[f"policies-0-{field}"] == [typed]
    assert Page(response).fields["policies-0-number"] == ["LM 4100"]
    assert not Policy.objects.exists()


def test_five_hundred_policies_are_told_in_one_line(photographer):
    rows = {
        f"policies-{n}-{name.removeprefix('policies-0-')}": value
        for n in range(500)
        for name, value in TYPED.items()
    }
    response = photographer.post(PAGE, rows)
    assert response.status_code == 200
    assert f"{MOST_POLICIES} rows are the most" in said(response)
    assert not Policy.objects.exists()


def test_a_policy_is_removed(photographer):
    press(photographer, **TYPED)
    press(photographer, **{"policies-0-DELETE": "on"})
    assert not Policy.objects.exists()


def test_a_policy_sent_twice_is_one(photographer):
    sheet = fields(photographer, PAGE) | TYPED
    photographer.post(PAGE, sheet)
    photographer.post(PAGE, sheet)
    assert Policy.objects.count() == 1


def test_one_more_row_is_asked_for_without_scripts(photographer):
    response = press(photographer, do="add-policies", **TYPED)
    assert response.status_code == 200
    assert "policies-1-insurer" in Page(response).fields
    assert Page(response).fields["policies-0-insurer"] == ["Larkmoor Mutual"]
    assert "Not kept yet" in said(response)


def test_which_kinds_every_wedding_needs_is_the_studios_to_say(photographer, wedding):
    assert fields(photographer, PAGE)["wanted"] == ["liability", "indemnity", "equipment"]
    press(photographer, wanted=["liability", "vehicle"])
    assert Studio.get().insurance == ["liability", "vehicle"]
    words = said(photographer.get("/w/thora-lukasz/ready"))
    assert "Insurance in force: Vehicle, with business use" in words
    assert "Insurance in force: Equipment" not in words


def test_a_studio_that_needs_none_is_asked_for_none(photographer, wedding):
    sheet = fields(photographer, PAGE)
    del sheet["wanted"]
    photographer.post(PAGE, sheet)
    assert Studio.get().insurance == []
    assert "Insurance in force" not in said(photographer.get("/w/thora-lukasz/ready"))


def test_the_countries_of_a_wedding_are_typed_in_its_booking(photographer, wedding):
    page = "/w/thora-lukasz/booking"
    sheet = fields(photographer, page)
    assert sheet["countries"] == [""]
    wrong = photographer.post(page, sheet | {"countries": "Atlantis"})
    assert "“Atlantis”: write its English name" in said(wrong)
    photographer.post(page, sheet | {"countries": "NO; Sweden"})
    assert Wedding.objects.get().decisions.countries == ["NO", "SE"]
    assert fields(photographer, page)["countries"] == ["Norway, Sweden"]
    assert "Countries: Norway, Sweden" in said(photographer.get("/w/thora-lukasz/ready"))
