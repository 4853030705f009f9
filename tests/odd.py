"""What can be sent that nobody would type: values, names, bodies, files and headers, by Hypothesis.

Lone surrogates arrive as bytes that are no UTF-8, as a browser or a script could send them.
"""

import io
from urllib.parse import quote, urlencode

from django.test.client import BOUNDARY, MULTIPART_CONTENT, encode_multipart
from hypothesis import strategies as st

NUMBERS = "0 -0 -1 1 999999 2147483648 -2147483649 9223372036854775808 1e308 1e999 -1e999 nan "
NUMBERS += "NaN Infinity -inf 0x10 1_000 1,5 0.1e-400 ½ ² ٣ १२ 1e5 00012"
NUMBERS = [*NUMBERS.split(), "9" * 400, "9" * 5_000, "0." + "0" * 400 + "1", "1e" + "9" * 30]
DATES = [
    "0000-01-01", "0001-01-01", "9999-12-31", "10000-01-01", "2027-02-30", "2027-06-12",
    "31 February 2027", "1 January 0", "1 January 9999", "12 June 99999999999", "12.6.27",
    "1900-01-01", "-2027-06-12", "2027-W23-6", "2027-06-12T14:00:00+99:99", "31.12.9999",
]  # fmt: skip
TIMES = ["24:00", "23:59", "00:00", "25:99", "-1:00", "2.30 pm", "99999999999:00", "14:00:00.9999"]
PLACES = [
    "91,181", "nan,nan", "geo:1e999,1", "inf,inf", "90,180", "-90,-180", "48.5,2.3", "0,0",
    "8FVC9G8F+6X", "+", "9" * 400 + ",1", "Mars/Olympus", "Europe/London", "../../etc/passwd",
    "\u0000/UTC", "Etc/GMT+14", "/etc/localtime", "d'1\"", "51°N 0°W",
]  # fmt: skip
WORDS = [
    "", " ", "\0", "a\0b", "\r\n", "\r", "\x1b[31m", "\x7f\x85", "\u2028", "\u202egpj.exe",
    "\u200f\u2067שלום\u2069", "\ud800", "a\udfffb", "\ufffe", "\U0010ffff", "e" + "\u0301" * 50,
    "👩‍👩‍👧‍👦", "ß", "İ", "%s%n", "%(a)s", "{0.__class__}", "{{ x }}", "{% x %}", "<script>",
    "]]>", "'; --", "\\", "on", "true", "null", "[]", "{}", '{"a": [1e999]}', "__proto__",
    "a@b", "+" * 60, "+44 7700 900111", "javascript:alert(1)", "//elsewhere.example", "a\tb, c\nd",
    "x" * 300, "ż\r\n" * 2_000,
]  # fmt: skip
TEXT = st.one_of(
    *(st.sampled_from(each) for each in (NUMBERS, DATES, TIMES, PLACES, WORDS)),
    st.text(st.characters(), max_size=8),
    st.text(st.characters(categories=["Cc", "Cf", "Co", "Cn", "Cs", "Zl", "Zp"]), max_size=5),
)
VALUES = st.one_of(TEXT, TEXT, TEXT, st.lists(TEXT, max_size=3))  # one name, several times or never
COUNTS = st.sampled_from(["", "0", "-1", "1", "3", "999", "1001", "9" * 40, "x", "\0", "٣", "1e3"])
NAMES = st.sampled_from(
    [
        "do",
        "key",
        "next",
        "version",
        "was",
        "turn",
        "sheet",
        "pk",
        "_method",
        "__proto__",
        "\0",
        "",
        "form-0-key",
        "form-TOTAL_FORMS",
        "\ud800",
        "a[b][]",
        "x" * 3_000,
    ]
)
FILES = st.sampled_from(
    [
        b"",
        b"\0" * 99,
        b"\xff\xd8\xff",
        b"\x89PNG\r\n\x1a\n",
        b"%PDF-1.7",
        b"PK\x03\x04",
        b"<svg/>",
        b"GIF89a\xff\xff\xff\xff",
        b"....ftypheic" + b"\0" * 20,
        b"\xef\xbb\xbf\xff\xfe",
    ]
)
FILE_NAMES = st.sampled_from(
    ["a.jpg", "..", ".", "", "x" * 300, "\u202egpj.exe", "nul", "a\r\nb.png", "ż/\\.pdf", "a\0.png"]
)
BODIES = st.sampled_from(
    [
        b"",
        b"{",
        b"[" * 5_000,
        b'{"do": {"do": []}}',
        b"NaN",
        b"\xff\xfe\0",
        b"do=%",
        b"&&==&",
        b"--" + BOUNDARY.encode(),
        b"a=" + b"%ED%A0%80" * 20,
        b"--x\r\nContent-Disposition: form",
    ]
)
KINDS = st.sampled_from(
    [
        "application/json",
        "application/x-www-form-urlencoded",
        "text/plain",
        "",
        "multipart/form-data",
        MULTIPART_CONTENT,
        "multipart/form-data; boundary=\u00ff",
        "multipart/form-data; boundary=x",
        "application/x-www-form-urlencoded; charset=utf-16",
        f"{MULTIPART_CONTENT}; charset=hex",
        "application/x-www-form-urlencoded; charset=hex",
        f"{MULTIPART_CONTENT}; charset=utf-7",
    ]
)
HEADERS = st.fixed_dictionaries(
    {},
    optional={
        "HTTP_ACCEPT_LANGUAGE": st.sampled_from(["", "*", "\xff", "de;q=nan", "x" * 600, "pl,,;q"]),
        "HTTP_IF_NONE_MATCH": st.sampled_from(["*", '"', 'W/"\xff"', "," * 99]),
        "HTTP_IF_MODIFIED_SINCE": st.sampled_from(
            ["0", "Sat, 31 Dec 9999 23:59:59 GMT", "Mon, 01 Jan 0000 00:00:00 GMT", "x" * 99]
        ),
        "HTTP_RANGE": st.sampled_from(["bytes=-1", "bytes=9-0", "bytes=" + "9" * 400 + "-"]),
        "HTTP_REFERER": st.sampled_from(["//[", "\xff", "http://[::1", "about:blank"]),
        "HTTP_ACCEPT": st.sampled_from(["", "application/json", "\xff;q=x"]),
        "HTTP_X_REQUESTED_WITH": st.just("XMLHttpRequest"),
        "HTTP_SEC_FETCH_SITE": st.sampled_from(["", "cross-site", "\xff"]),
    },
)


@st.composite
def filled(draw, page, presses=()):
    """A page's own form as it stands or empty, changed in up to nine boxes, with a button."""
    post = dict(page) if draw(st.integers(0, 3)) else {}
    there = list(dict.fromkeys(value or "" for values in page.values() for value in values))
    value = st.one_of(VALUES, st.sampled_from(there)) if there else VALUES
    names = st.one_of(st.sampled_from(list(page)), NAMES) if page else NAMES
    for name in draw(st.lists(names, max_size=9, unique=True)):
        counts = name.endswith("_FORMS") and draw(st.integers(0, 3))
        post[name] = draw(COUNTS if counts else value)
    if presses and draw(st.integers(0, 4)):
        name, pressed = draw(st.sampled_from(presses))
        post[name] = draw(st.sampled_from([pressed, pressed, f"{pressed}:", pressed + "\0"]))
    return post


def encoded(post):
    """As a form sends it, lone surrogates too: for an address, or for a body."""
    return urlencode(post, doseq=True, errors="surrogatepass")


def with_file(post, name, content, called):
    """The same with a file, and the type that goes with it."""
    file = io.BytesIO(content)
    file.name, file.content_type = called, "image/jpeg"
    whole = {str_of(key): kept(value) for key, value in post.items()}
    return encode_multipart(BOUNDARY, whole | {str_of(name): file})


def kept(value):
    return [str_of(each) for each in value] if isinstance(value, list) else str_of(value)


def str_of(text):
    """What can be written as UTF-8 at all."""
    return text.encode("utf-8", "replace").decode()


def in_path(text):
    """One part of an address; a browser takes dots away by itself."""
    return quote(text.encode("utf-8", "surrogatepass"), safe="") or "%20"
