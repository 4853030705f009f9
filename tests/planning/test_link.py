"""The photographer's page of the couple's link: to copy, to mail, to scan, to renew."""

from urllib.parse import parse_qs, unquote, urlsplit

import segno
from django.test import Client

from intake.links import link_path
from studio.models import Studio
from tests.page import Page, said

LINK = "/w/thora-lukasz/link"


def mailto(response):
    (address,) = [link for link in Page(response).links if link and link.startswith("mailto:")]
    return address


def test_the_page_has_the_whole_link(photographer, wedding):
    page = photographer.get(LINK)
    url = f"http://testserver{link_path(wedding)}"
    assert f'value="{url}"' in page.content.decode()
    assert Client().get(url, follow=True).status_code == 200
    assert "no-store" in page["Cache-Control"]


def test_the_mail_draft_is_a_well_formed_mailto_address(photographer, wedding):
    # RFC 6068: addresses divided by commas, everything else percent-encoded, lines end in %0D%0A.
    Studio.objects.create(name="Marigold & Lane? 100%", phone="07700 900140")
    first, second = wedding.partners.all()
    first.email, second.email = "thora+wed&ding@example.org", "lukasz@example.org"
    first.save()
    second.save()
    address = mailto(photographer.get(LINK))
    assert address.isascii()
    assert not set(' "<>\r\n') & set(address)
    parts = urlsplit(address)
    assert parts.path == "thora%2Bwed%26ding@example.org,lukasz@example.org"
    fields = parse_qs(parts.query, strict_parsing=True)
    assert set(fields) == {"subject", "body"}
    assert fields["subject"] == ["Your wedding day: a few questions from Marigold & Lane? 100%"]
    (body,) = fields["body"]
    assert f"\r\nhttp://testserver{link_path(wedding)}\r\n" in body
    assert "Dear Þóra & Łukasz," in body
    assert "%0D%0A" in address
    assert "\n" not in body.replace("\r\n", "")


def test_a_couple_without_addresses_gets_a_draft_to_fill_in(photographer, wedding):
    address = mailto(photographer.get(LINK))
    assert address.startswith("mailto:?subject=")
    assert "+" not in address  # a space is %20: mail programmes show a plus as a plus


def test_the_qr_code_is_of_the_link(photographer, wedding):
    """Checked by making it again: nothing here reads codes (ISO/IEC 18004 is not repeated)."""
    url = f"http://testserver{link_path(wedding)}"
    page = photographer.get(LINK).content.decode()
    source = page.split('class="qr" src="')[1].split('"')[0]
    made = segno.make(url, error="m").svg_data_uri(scale=4, border=2)
    assert unquote(source).replace("&#x27;", "'") == unquote(made)
    assert 'alt="QR code of the link"' in page


def test_a_new_link_is_made_only_by_pressing_the_button(photographer, wedding):
    old = link_path(wedding)
    photographer.get(LINK)
    wedding.refresh_from_db()
    assert link_path(wedding) == old
    response = photographer.post(LINK, follow=True)
    assert "The old one opens nothing any more" in said(response)
    wedding.refresh_from_db()
    assert link_path(wedding) != old
    assert Client().get(old).status_code == 404
    assert Client().get(link_path(wedding)).status_code == 302
    assert f"http://testserver{link_path(wedding)}" in response.content.decode()


def test_a_new_link_keeps_every_answer(photographer, wedding):
    wedding.matters = "The dog"
    wedding.save()
    photographer.post(LINK)
    wedding.refresh_from_db()
    assert wedding.matters == "The dog"
    assert wedding.partners.count() == 2


def test_at_the_machine_itself_the_link_has_the_name_that_a_phone_reaches(
    photographer, wedding, settings
):
    settings.HOME_HOSTS = ["192.168.1.20"]
    settings.ALLOWED_HOSTS = ["127.0.0.1", "192.168.1.20"]
    page = photographer.get(LINK, headers={"host": "127.0.0.1:8000"})
    url = f"http://192.168.1.20:8000{link_path(wedding)}"
    assert f'value="{url}"' in page.content.decode()
    assert "works in your own network only, and without encryption" in said(page)


def test_the_page_says_when_a_link_opens_here_alone_and_nothing_when_it_opens_anywhere(
    photographer, wedding, settings
):
    settings.ALLOWED_HOSTS = ["127.0.0.1", "studio.example"]
    here = photographer.get(LINK, headers={"host": "127.0.0.1:8000"})
    assert "This address works on this computer only." in said(here)
    anywhere = said(photographer.get(LINK, headers={"host": "studio.example"}))
    assert "This address works" not in anywhere
