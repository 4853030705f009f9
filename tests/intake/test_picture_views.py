"""The couple's page of pictures, and who may see a picture."""

import gzip

import pytest
from django.db import transaction
from django.test import Client

from intake import picture_board, store
from intake.links import COOKIE, link_path
from intake.models import Picture, StepState, Wedding
from intake.picture_form import MOST_PICTURES
from intake.steps import STEPS
from tests.page import Page, fields, said
from tests.sent_files import SCRIPT, bad_files, jpeg, upload

PAGE = "/q/thora-lukasz/step/pictures"
LIST = "/q/thora-lukasz/"


@pytest.fixture(autouse=True)
def _own_store(kept_files):
    """No test sees the files of another."""


def press_keep(client, *uploads, page=PAGE, **typed):
    """What a browser without scripts would send, with other lines and files."""
    return client.post(page, fields(client, page) | typed | {"files": list(uploads)})


def add(client, *contents, **typed):
    """Pictures that are there already."""
    uploads = [upload(content) for content in contents]
    assert press_keep(client, *uploads, **typed).status_code == 302
    return list(Picture.objects.all())


def beside_the_files(response):
    """The lines at the box for files."""
    html = response.content.decode()
    _before, mark, rest = html.partition('id="id_files_error">')
    return rest.partition("</div>")[0].count("<p>") if mark else 0


def test_several_are_added_at_once_in_their_order(wedding, couple, kept_files):
    response = press_keep(couple, *(upload(jpeg(seed)) for seed in range(3)))
    assert response["Location"] == PAGE  # where each has a box for its line
    assert "Added: 3 pictures." in said(couple.get(PAGE))
    digests = [store.digest_of(jpeg(seed)) for seed in range(3)]
    assert list(Picture.objects.values_list("digest", flat=True)) == digests
    assert len(kept_files()) == 6
    assert StepState.objects.get(slug="pictures").saved_at


def test_a_line_is_typed_with_the_file_or_afterwards(wedding, couple):
    (picture,) = add(couple, jpeg(), line="  The warm\r\nlight ")
    assert picture.line == "The warm light"
    response = press_keep(couple, **{"pictures-0-line": "The light, and the hats"})
    assert response["Location"] == LIST
    assert "Kept: Pictures you like." in said(couple.get(LIST))
    picture.refresh_from_db()
    assert picture.line == "The light, and the hats"


def test_a_page_without_pictures_is_kept_as_it_is(wedding, couple):
    assert press_keep(couple)["Location"] == LIST
    assert press_keep(couple, page=f"{PAGE}?from=read-through")["Location"].endswith("read-through")
    assert not Picture.objects.exists()


def test_every_bad_file_has_its_own_line_and_the_good_one_is_kept(wedding, couple, kept_files):
    add(couple, jpeg(seed=1))
    bad = [upload(content, name) for _what, name, content, _words in bad_files()]
    typed = {"pictures-0-line": "Hats", "line": "This blue"}
    response = press_keep(couple, *bad, upload(jpeg(seed=2)), **typed)
    assert response.status_code == 200
    assert "<title>Error:" in response.content.decode()
    assert beside_the_files(response) == len(bad)
    for _what, name, _content, words in bad_files():
        assert f"“{name}”" in said(response)
        assert words in said(response)
    assert [picture.line for picture in Picture.objects.all()] == ["Hats", "This blue"]
    assert "Added: 1 picture." in said(response)
    assert Page(response).fields["line"] == ["This blue"]
    assert Page(response).fields["pictures-0-line"] == ["Hats"]
    assert len(kept_files()) == 4


def test_a_line_without_its_file_is_asked_about_and_stays(wedding, couple):
    response = press_keep(couple, line="This blue")
    assert "Choose the picture that this line is about" in said(response)
    assert Page(response).fields["line"] == ["This blue"]


def test_a_line_that_is_too_long_is_told_and_its_picture_is_not_lost(wedding, couple):
    add(couple, jpeg(seed=1))
    long = {"pictures-0-line": "x" * 121}
    response = press_keep(couple, upload(jpeg(seed=2)), **long)
    assert "Shorten this to 120 characters; it has 121." in said(response)
    assert Page(response).fields["pictures-0-line"] == ["x" * 121]
    assert "pictures-1-line" in Page(response).fields
    assert Picture.objects.count() == 2


def test_the_name_of_a_file_is_shown_as_text(wedding, couple):
    response = press_keep(couple, upload(SCRIPT, "<img src=x onerror=alert(1)>.jpg"))
    assert "<img src=x" not in response.content.decode()
    assert "<img src=x onerror=alert(1)>.jpg" in said(response)


def test_the_same_file_is_one_picture_however_often_it_is_sent(wedding, couple, kept_files):
    once = fields(couple, PAGE)
    for _tap in range(2):
        couple.post(PAGE, once | {"files": [upload(jpeg()), upload(jpeg())]})
    assert Picture.objects.count() == 1
    assert len(kept_files()) == 2
    assert "Here already, and not added twice: 2." in said(couple.get(PAGE))


def test_two_people_who_send_the_same_file_at_once_make_one(
    wedding, couple, kept_files, monkeypatch
):
    real = picture_board.keeping

    def slow(*args):
        """The other is quicker by the time that drawing takes."""
        monkeypatch.setattr(picture_board, "keeping", real)
        add(couple, jpeg())
        return real(*args)

    monkeypatch.setattr(picture_board, "keeping", slow)
    assert press_keep(couple, upload(jpeg())).status_code == 302
    assert Picture.objects.count() == 1
    assert len(kept_files()) == 2


def full(wedding):
    for number in range(MOST_PICTURES):
        Picture.objects.create(wedding=wedding, digest=number, key=f"k{number}", width=9, height=9)


def test_there_is_an_end_to_them(wedding, couple, kept_files):
    full(wedding)
    Picture.objects.last().delete()
    response = press_keep(couple, upload(jpeg(1), "one.jpg"), upload(jpeg(2), "two.jpg"))
    assert "“two.jpg”: 12 pictures are the most." in said(response)
    assert Picture.objects.count() == MOST_PICTURES
    assert len(kept_files()) == 2
    assert "That is as many as fit" in said(couple.get(PAGE))


def test_one_goes_and_another_comes_in_one_go(wedding, couple):
    full(wedding)
    data = fields(couple, PAGE) | {"pictures-3-DELETE": "on", "files": [upload(jpeg())]}
    assert couple.post(PAGE, data).status_code == 302
    assert Picture.objects.count() == MOST_PICTURES
    assert not Picture.objects.filter(key="k3").exists()


def test_a_removed_picture_takes_its_files_along(
    wedding, couple, kept_files, django_capture_on_commit_callbacks
):
    _one, two = add(couple, jpeg(1), jpeg(2))
    data = fields(couple, PAGE) | {"pictures-0-DELETE": "on"}
    with django_capture_on_commit_callbacks(execute=True):
        assert couple.post(PAGE, data).status_code == 302
        assert len(kept_files()) == 4  # until the row is gone for good
    assert list(Picture.objects.all()) == [two]
    assert sorted(kept_files()) == sorted([two.file, two.small])


def test_no_file_stays_where_its_row_cannot_be_written(wedding, couple, kept_files, monkeypatch):
    def fail(**row):
        assert store.store().exists(row["file"])  # on the disk before its row
        raise ZeroDivisionError

    monkeypatch.setattr(Picture.objects, "create", fail)
    with pytest.raises(ZeroDivisionError), transaction.atomic():
        press_keep(couple, upload(jpeg()))
    assert kept_files() == []


def test_what_one_typed_meanwhile_is_not_undone_by_the_other(wedding, couple):
    add(couple, jpeg(1), jpeg(2))
    hers, his = fields(couple, PAGE), fields(couple, PAGE)
    couple.post(PAGE, hers | {"pictures-0-line": "Her line"})
    couple.post(PAGE, his | {"pictures-1-line": "His line"})
    assert [picture.line for picture in Picture.objects.all()] == ["Her line", "His line"]
    response = couple.post(PAGE, his | {"pictures-0-line": "His own"})
    assert "was changed after you opened the page" in said(response)
    assert Page(response).fields["pictures-0-line"] == ["His own"]
    assert Picture.objects.first().line == "Her line"


def test_a_line_beside_a_picture_that_is_gone_is_said_back(wedding, couple):
    add(couple, jpeg(1))
    old = fields(couple, PAGE)
    couple.post(PAGE, old | {"pictures-0-DELETE": "on"})
    response = couple.post(PAGE, old | {"pictures-0-line": "So warm"}, follow=True)
    assert "what you typed: “So warm”" in said(response)
    assert not Picture.objects.exists()


@pytest.mark.parametrize("key", ["", "a", "../../x", "k" * 400])
def test_a_row_that_nobody_made_makes_nothing(wedding, couple, key):
    forged = {"pictures-7-key": key, "pictures-7-line": "Hello", "pictures-TOTAL_FORMS": "99"}
    assert couple.post(PAGE, forged).status_code in (200, 302)
    assert not Picture.objects.exists()


def test_words_where_files_should_be_are_no_files(wedding, couple):
    assert couple.post(PAGE, {"files": "us.jpg", "do": "nothing"}).status_code == 302
    assert not Picture.objects.exists()


def test_too_many_files_to_count_are_refused_calmly(wedding, couple):
    response = couple.post(PAGE, {"files": [upload(b"x") for _ in range(101)]})
    assert response.status_code == 400
    assert not Picture.objects.exists()


def addresses(picture):
    return [f"/q/thora-lukasz/picture/{picture.key}{small}" for small in ("", "/small")]


@pytest.fixture
def picture(wedding, couple):
    (picture,) = add(couple, jpeg())
    return picture


def test_a_picture_opens_to_the_couple_and_the_photographer(picture, couple, photographer):
    for client in (couple, photographer):
        for address in addresses(picture):
            response = client.get(address)
            assert response["Content-Type"] == "image/jpeg"
            assert response["Content-Disposition"] == 'inline; filename="picture-1.jpg"'
            assert response["X-Content-Type-Options"] == "nosniff"
            assert "no-store" in response["Cache-Control"]
            assert response["Content-Security-Policy"].startswith("sandbox")
            assert response.content.startswith(b"\xff\xd8")


def test_another_couple_hears_what_a_wrong_link_says(picture, other):
    theirs = Client()
    theirs.get(link_path(other))
    theirs.cookies[COOKIE]["path"] = "/"  # as if browsers ignored paths
    wrong = theirs.get("/q/thora-lukasz/wrong-token")
    for client in (theirs, Client()):
        for address in (*addresses(picture), "/q/thora-lukasz/picture/none", PAGE):
            response = client.get(address)
            assert (response.status_code, response.content) == (404, wrong.content)


def test_a_picture_of_another_is_not_found_under_ones_own_address(picture, other, couple):
    theirs = Picture.objects.create(wedding=other, key="theirs", width=9, height=9)
    for address in addresses(theirs):
        assert couple.get(address).status_code == 404


def test_a_new_link_ends_the_old_cookie_for_pictures_too(picture, couple, wedding):
    from intake.links import make_new_link

    make_new_link(wedding)
    assert couple.get(addresses(picture)[0]).status_code == 404


def test_a_picture_whose_file_is_lost_is_not_found(picture, couple):
    store.drop(picture.file, picture.small)
    for address in addresses(picture):
        assert couple.get(address).status_code == 404
    assert couple.get(PAGE).status_code == 200


def test_no_address_leads_into_the_folder(picture, couple):
    for address in (f"/static/{picture.file}", f"/pictures/{picture.file}", f"/{picture.file}"):
        assert couple.get(address).status_code == 404


def test_they_are_read_through_with_the_other_answers(picture, couple):
    Picture.objects.update(line="So warm")
    response = couple.get(f"{LIST}read-through")
    assert "So warm" in said(response)
    assert f'src="{addresses(picture)[1]}"' in response.content.decode()


def test_what_is_optional_holds_nobody_up(wedding, couple):
    for step in STEPS:
        if not step.optional:
            StepState.objects.create(wedding=wedding, slug=step.slug, saved_at="2027-01-01T00Z")
    Wedding.objects.update(online="no")
    wedding.partners.update(phone="07700 900111")
    wedding.days.get().moments.create(wedding=wedding, kind="ceremony", at="14:00")
    wedding.places.create(name="Mill", wet_plan="Loft")
    wedding.contacts.create(name="Ana", listed_as="helper")
    words = said(couple.get(f"{LIST}read-through"))
    assert "Some things are missing" not in words
    assert "Pictures you like Change: Pictures you like optional" in words
    assert "optional" in said(couple.get(LIST))


def test_the_page_itself_is_light(wedding, couple):
    full(wedding)
    Picture.objects.update(line="The light and the hats, and nobody looks")
    page = couple.get(PAGE).content
    assert len(gzip.compress(page)) < 10_000
    assert b"<style" not in page
    assert b"style=" not in page
    assert page.count(b'loading="lazy"') == MOST_PICTURES


def test_looking_changes_nothing(picture, couple):
    before = list(Picture.objects.values()), list(Wedding.objects.values())
    for address in (*addresses(picture), PAGE):
        couple.get(address)
        couple.head(address)
    assert (list(Picture.objects.values()), list(Wedding.objects.values())) == before
