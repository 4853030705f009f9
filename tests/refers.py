"""What a page, a paper, a calendar or a style sheet refers to: all that can be followed."""

import io
import re
from html.parser import HTMLParser
from urllib.parse import urlsplit

from pypdf import PdfReader

# The attributes of HTML that hold addresses (HTML Standard, index of attributes: from memory), and
# those of SVG drawn into it.
ADDRESSES = {
    "action", "archive", "background", "cite", "classid", "codebase", "data", "formaction", "href",
    "icon", "imagesrcset", "longdesc", "manifest", "ping", "poster", "profile", "src", "srcset",
    "usemap", "xlink:href",
}  # fmt: skip
IN_STYLE = re.compile(r"""url\(\s*["']?([^"')]+)|@import\s+["']([^"']+)""")
WITH_HOST = re.compile(r"(?:[a-z][a-z0-9+.-]*:)?//[\w\[]", re.IGNORECASE)
# Where PDF keeps what a reader can be sent to (ISO 32000-2, 12.6.4: from memory).
ACTIONS = {"/URI", "/Launch", "/GoToR", "/GoToE", "/SubmitForm", "/ImportData", "/JavaScript"}


class Refers(HTMLParser):
    """`found` are (where, address) of a page; text that people read is no address."""

    def __init__(self, html):
        super().__init__()
        self.found, self._in = [], ""
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        self._in = tag
        for name, value in attrs:
            value = value or ""
            if name in {"srcset", "imagesrcset"}:
                self.found += [(f"{tag} {name}", each.split()[0]) for each in value.split(",")]
            elif name in ADDRESSES:
                self.found.append((f"{tag} {name}", value))
            elif name == "style":
                self.found += in_style(value)
            elif name == "content" and "url=" in value.casefold():
                self.found.append((f"{tag} {name}", value.casefold().partition("url=")[2]))
            elif name.startswith(("data-", "on")) and WITH_HOST.match(value):
                self.found.append((f"{tag} {name}", value))

    def handle_endtag(self, tag):
        self._in = ""

    def handle_data(self, data):
        if self._in == "style":
            self.found += in_style(data)
        elif self._in == "script":
            self.found += [("script", each) for each in re.findall(r"['\"`](\S+?)['\"`]", data)]


def in_style(text):
    text = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)
    return [("style", first or second) for first, second in IN_STYLE.findall(text)]


def in_script(text):
    """Every text in quotes that has a host in it."""
    return [("script", t) for t in re.findall(r"['\"`]([^'\"`\n]*)['\"`]", text) if "//" in t]


def in_pdf(content):
    reader, found = PdfReader(io.BytesIO(content)), []
    for number in range(1, int(reader.trailer["/Size"])):
        found += _actions(reader.get_object(number))
    return found


def _actions(value):
    if isinstance(value, dict):
        if value.get("/S") in ACTIONS:
            yield (str(value["/S"]), str(value.get("/URI") or value.get("/F") or value.get("/JS")))
        if value.get("/FS") == "/URL":
            yield ("file", str(value.get("/F")))
        for each in value.values():
            yield from _actions(each)
    elif isinstance(value, list):
        for each in value:
            yield from _actions(each)


def in_calendar(content):
    """Values and parameters that are addresses (RFC 5545, 3.3.13): whatever has a scheme."""
    lines = content.decode().replace("\r\n ", "").split("\r\n")
    heads = ("URL", "SOURCE", "ATTACH", "IMAGE", "CONFERENCE", "ORGANIZER", "ATTENDEE", "TZURL")
    found = [("calendar", line) for line in lines if re.split("[;:]", line)[0] in heads]
    return [(where, re.split(r":", line, maxsplit=1)[1]) for where, line in found]


def in_headers(response):
    """Where an answer sends or lets a browser go, text and cookies aside."""
    for name in ("Location", "Link", "Refresh", "Report-To", "Reporting-Endpoints", "SourceMap"):
        if name in response:
            yield (name, response[name])
    for part in re.split(r"[;\s]+", response.get("Content-Security-Policy", "")):
        if "." in part or "//" in part or part in {"*", "https:", "http:"}:
            yield ("Content-Security-Policy", part)


def strangers(found, own, allowed):
    """Those that lead to another host, or by a way that nobody allowed."""
    return sorted({(where, each) for where, each in found if not _is_own(each, own, allowed)})


def _is_own(address, own, allowed):
    parts = urlsplit(address.strip())
    if parts.netloc:
        return parts.netloc in own
    return not parts.scheme or parts.scheme in allowed
