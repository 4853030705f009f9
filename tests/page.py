"""Reads a page as a browser without scripts does: what it says, and what its form would send."""

from html.parser import HTMLParser

VOID = {"input", "meta", "link", "br", "hr", "img"}


class Page(HTMLParser):
    """`fields` is what the page's own form would send; `words` is its text, `ids` its ids."""

    def __init__(self, response):
        super().__init__()
        self.fields, self.words, self.ids, self.links = {}, "", set(), []
        self._open, self._name, self._select, self._first = [], None, None, None
        self.feed(response.content.decode())

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if tag not in VOID:
            self._open.append(tag)
        if "template" in self._open or "nav" in self._open:
            return
        self.ids.add(attrs.get("id"))
        self.links.append(attrs.get("href"))
        name = attrs.get("name")
        if tag == "input" and name:
            ticks = attrs.get("type") in {"checkbox", "radio"}
            if not ticks or "checked" in attrs:
                self._add(name, attrs.get("value", "on" if ticks else ""))
        elif tag == "textarea":
            self._name = name
            self._add(name, "")
        elif tag == "select":
            self._select, self._first = name, None
        elif tag == "option" and self._select:
            self._first = self._first or attrs
            if "selected" in attrs:
                self._add(self._select, attrs["value"])

    def handle_endtag(self, tag):
        while self._open and self._open.pop() != tag:
            pass
        if tag == "textarea" and self._name:
            text = self.fields[self._name].pop().removeprefix("\n")
            self._add(self._name, text.replace("\r\n", "\n").replace("\n", "\r\n"))
            self._name = None
        elif tag == "select" and self._select:
            if self._first:  # what a browser sends where nothing is chosen
                self.fields.setdefault(self._select, [self._first["value"]])
            self._select = None

    def handle_data(self, data):
        if self._name:
            self.fields[self._name][-1] += data
        elif "template" not in self._open:
            self.words += data

    def _add(self, name, value):
        self.fields.setdefault(name, []).append(value)


def fields(client, url):
    """What the form at an address would send, ready to be changed."""
    response = client.get(url)
    assert response.status_code == 200
    return Page(response).fields


def said(response):
    """The page's words with white space folded."""
    return " ".join(Page(response).words.split())
