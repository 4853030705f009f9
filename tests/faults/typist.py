"""One partner at a phone: types, and the page writes it down; what the server said is remembered.

Every text that is sent ends with a number of its own, so that of two texts it is plain which came
later. A page that hears nothing sends the same again, as the real one does.
"""

import json
import threading
import time
import urllib.error
import urllib.parse
import urllib.request
from contextlib import contextmanager
from http.client import HTTPException

from tests.page import Page

PAGES = (("photographs", "text"), ("groups", "title"))  # of either partner, and the box they fill
DRAFTS = 4  # before it is kept
WORDS = 10  # in one text
PATIENCE = 20  # seconds for an answer


class Stay(urllib.request.HTTPRedirectHandler):
    def redirect_request(self, *args, **kwargs):
        return None


class Answer:
    def __init__(self, status, content):
        self.status, self.content = status, content


class Typist(threading.Thread):
    """`key` is the row that is theirs; `sent` are all texts by number, `heard` the last number that
    the server acknowledged, `wrong` whatever no server should ever answer, `refused` how often it
    said that it could not keep anything just now, `slowest` the longest wait for an answer (s)."""

    def __init__(self, address, link, key, partner):
        super().__init__(name=key, daemon=True)
        self.address, self.link, self.key = address, link, key
        slug, self.box = PAGES[partner]
        self.page = f"{link.rpartition('/')[0]}/step/{slug}"
        self.sent, self.heard, self.wrong, self.refused = {}, 0, [], 0
        self.waiting = False  # for an answer
        self.slowest = 0.0
        self.opens_again = False  # their link, where the page is not theirs any more
        self.stopped = threading.Event()
        cookies = urllib.request.HTTPCookieProcessor()
        self.browser = urllib.request.build_opener(Stay, cookies)

    def run(self):
        try:
            self.ask(self.link)
            while not self.stopped.is_set():
                page = self.open()
                for turn in range(1, DRAFTS + 1):
                    self.send(page, turn, "draft")
                self.send(page, DRAFTS + 1, "save")
        except Exception as error:  # told where the test looks
            self.wrong.append(repr(error))

    def open(self):
        """The page as it stands on the phone: what its form would send, with our box's name."""
        answer = self.ask(self.page)
        if answer is None:
            return None
        fields = Page(answer).fields
        rows = (name.removesuffix("-key") for name, value in fields.items() if value == [self.key])
        return fields, f"{next(rows)}-{self.box}"

    def send(self, page, turn, do):
        """Type one more word and send the page, until there is an answer or it is over."""
        if page is None:
            return
        fields, box = page
        number = len(self.sent) + 1
        first = max(1, number - WORDS + 1)
        self.sent[number] = " ".join(f"{self.key}-{each}" for each in range(first, number + 1))
        typed = {box: self.sent[number], "turn": str(turn), "do": do}
        answer = self.ask(self.page, fields | typed)
        if answer is None:
            return
        if answer.status == (200 if do == "draft" else 302):
            self.heard = number
            if do == "draft" and json.loads(answer.content) != {"draft": True}:
                self.wrong.append((do, answer.content))
        else:
            self.wrong.append((do, answer.status, answer.content[:2000]))

    def ask(self, path, fields=None):
        data = fields and urllib.parse.urlencode(fields, doseq=True).encode()
        while not self.stopped.is_set():
            began = time.monotonic()
            try:
                self.waiting = True
                answer = self._ask(self.address + path, data)
                self.slowest = max(self.slowest, time.monotonic() - began)
            except (OSError, HTTPException):  # nobody there, or gone in the middle
                answer = None
            finally:
                self.waiting = False
            if answer and answer.status == 404 and self.opens_again and path != self.link:
                self.ask(self.link)
                continue
            if answer and answer.status != 503:
                return answer
            self.refused += answer is not None
            time.sleep(0.01)
        return None

    def _ask(self, url, data):
        try:
            with self.browser.open(urllib.request.Request(url, data), timeout=PATIENCE) as answer:
                return Answer(answer.status, answer.read())
        except urllib.error.HTTPError as answer:
            with answer:
                return Answer(answer.code, answer.read())


@contextmanager
def at_work(typists):
    for typist in typists:
        typist.start()
    try:
        yield
    finally:
        for typist in typists:
            typist.stopped.set()
        for typist in typists:
            typist.join(2 * PATIENCE)
