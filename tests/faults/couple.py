"""A couple at a server on loopback: opens the link, types, keeps, and tries once more."""

import urllib.error
import urllib.parse
import urllib.request

from django.core.files.uploadedfile import SimpleUploadedFile
from django.test.client import BOUNDARY, MULTIPART_CONTENT, encode_multipart

from tests.page import Page, said
from tests.signed_in import browser

PATIENCE = 60  # seconds for an answer


class Answer:
    def __init__(self, answer):
        self.status, self.content = answer.status, answer.read()

    @property
    def says(self):
        return said(self)

    @property
    def fields(self):
        return Page(self).fields


class Couple:
    def __init__(self, site, link):
        self.site, self.page = site, f"{link.rpartition('/')[0]}/step/"
        self.opener, _cookies = browser()
        assert self.ask(link).status == 200

    def ask(self, path, fields=None, body=None, **headers):
        body = urllib.parse.urlencode(fields, doseq=True).encode() if fields else body
        request = urllib.request.Request(self.site + path, body, headers)
        try:
            with self.opener.open(request, timeout=PATIENCE) as answer:
                return Answer(answer)
        except urllib.error.HTTPError as answer:
            with answer:
                return Answer(answer)

    def open(self, slug):
        return self.ask(self.page + slug)

    def keep(self, slug, fields):
        """The page that comes after it was kept, or the one that says why not."""
        return self.ask(self.page + slug, fields | {"do": "save"})

    def send(self, slug, fields, content):
        """A picture, as a browser sends it."""
        sent = fields | {
            "do": "save",
            "files": [SimpleUploadedFile("us.jpg", content, "image/jpeg")],
        }
        body = encode_multipart(BOUNDARY, sent)
        return self.ask(self.page + slug, body=body, **{"Content-Type": MULTIPART_CONTENT})
