"""Pages of a PDF as poppler reads them, and what on them nobody should have to hand over."""

import re
import subprocess
from dataclasses import dataclass
from html.parser import HTMLParser

POINTS = 72 / 25.4  # in a millimetre
EDGES = {"a4": (22, 19), "a6-pages": (13, 11.5)}  # millimetres above and below what is printed
LEAST, LEAST_LAST = 0.2, 0.1  # shares of the height that a page is filled to
TOLD = {"p", "li", "dd", "td"}
LINE = re.compile(r'<line xMin=".+?" yMin="(.+?)" xMax=".+?" yMax="(.+?)">(.*?)</line>', re.S)
WORD = re.compile(r"<word [^>]+>(.*?)</word>")


@dataclass(frozen=True)
class Page:
    """`lines` from top to bottom, without blanks, heads and feet; `filled` to this share."""

    lines: list[str]
    filled: float


class Texts(HTMLParser):
    """What stands in headings, and in whatever else may run over several lines."""

    def __init__(self, html):
        super().__init__()
        self.headings, self.paragraphs, self._open = set(), set(), []
        self.feed(html)

    def handle_starttag(self, tag, attrs):
        if tag in {"h1", "h2", "h3"} | TOLD:
            self._open.append((tag, []))

    def handle_data(self, data):
        for _tag, words in self._open:
            words.append(data)

    def handle_endtag(self, tag):
        if self._open and self._open[-1][0] == tag:
            _tag, words = self._open.pop()
            (self.paragraphs if tag in TOLD else self.headings).add(close("".join(words)))


def close(text):
    """Without blanks: lines are broken at them, and poppler sees some that are none."""
    return re.sub(r"\s+", "", text)


def pages_of(pdf, size):
    command = ("pdftotext", "-bbox-layout", pdf, "-")
    told = subprocess.run(command, capture_output=True, check=True, timeout=60).stdout.decode()
    return [_page(layer, *EDGES[size]) for layer in told.split("<page ")[1:]]


def _page(layer, above, below):
    height = float(re.search(r'height="(.+?)"', layer)[1])
    top, bottom = above * POINTS - 2, height - below * POINTS + 6
    found = [(float(y), float(end), "".join(WORD.findall(words)))
             for y, end, words in LINE.findall(layer)]  # fmt: skip
    body = sorted(line for line in found if line[0] > top and line[1] < bottom)
    lowest = max((end for _y, end, _words in body), default=top)
    return Page([close(_plain(words)) for *_at, words in body], (lowest - top) / (bottom - top))


def _plain(words):
    for entity, letter in (("&lt;", "<"), ("&gt;", ">"), ("&quot;", '"'), ("&amp;", "&")):
        words = words.replace(entity, letter)
    return words


def complaints(pages, html):
    """What somebody with the paper in hand would be ashamed of, each with its page."""
    texts = Texts(html)
    for number, page in enumerate(pages, 1):
        last = number == len(pages)
        if page.filled < (LEAST_LAST if last else LEAST):
            yield f"page {number} of {len(pages)} is filled to {page.filled:.2f}"
        if page.lines and not last and _a_heading(page.lines[-1], texts):
            yield f"page {number} ends with the heading {page.lines[-1]}"
        if number > 1 and page.lines and _alone(pages[number - 2].lines, page.lines, texts):
            yield f"page {number} begins with one line of what began before: {page.lines[0]}"


def _a_heading(line, texts):
    """Not where a cell or a paragraph ends with the same words, as a place or a date may."""
    return line in texts.headings and not any(each.endswith(line) for each in texts.paragraphs)


def _alone(before, lines, texts):
    """Whether the first line ends a paragraph that the page before holds all the rest of."""
    first, all_before = lines[0], "".join(before)
    return first not in texts.paragraphs and any(
        each.endswith(first) and each[: -len(first)][-20:] in all_before
        for each in texts.paragraphs
        if len(each) > len(first) + 20
    )
