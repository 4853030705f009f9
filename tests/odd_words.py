"""What nobody would type after `manage.py`: a table of every argument of every command.

Each has values that work and values that hardly do. tests/test_any_command.py compares the table
with what the commands' own parsers take.
"""

import json
from datetime import date

from hypothesis import strategies as st

from tests.odd import DATES, NUMBERS, PLACES, TEXT, TIMES, WORDS
from tests.odd_backups import WHOLE
from tests.odd_json import DAY, GROUPS

# Nothing here may lead out of the folder that the test stands in, but to where nothing can lie.
PATHS = [
    "", " ", ".", "..", "/", "~", "-", "--", "folder", "folder/", "folder/new.pdf", "none/new.pdf",
    "taken.pdf", "taken.pdf/new.pdf", "season.zip", "list.json", "day.json", "loop", "link.pdf",
    "/dev/full", "x" * 250, "x" * 300, "x/" * 3_000, "\udcff.pdf", "\x1b[31m.pdf", "two\nlines.pdf",
    "\u202egpj.exe", "ż ó.pdf", "'; --", "%s%n", "{0}", "$HOME", "*", "nul", "\x7f\x9b\x85.pdf",
    "a\0.pdf",
]  # fmt: skip
INSIDE = TEXT.filter(lambda text: "/" not in text)  # also where a test runs as root
TEXTS = st.one_of(TEXT, TEXT, st.sampled_from([*PATHS, "x" * 100_000, "\udcff\udc80"]))
FILE_NAMES = st.one_of(st.sampled_from(PATHS), INSIDE)
FLAG = None  # there or not


def numbers(*good):
    return [str(each) for each in good], st.one_of(st.sampled_from(NUMBERS), TEXTS)


def chosen(*good):
    return list(good), st.one_of(st.sampled_from([each.upper() for each in good]), TEXTS)


def among(good, odd):
    return list(good), st.one_of(st.sampled_from([*odd, *WORDS]), TEXTS)


WEDDING = (["thora-lukasz"], TEXTS)
OUT_WEDDING = (["thora-lukasz"], st.one_of(st.sampled_from(PATHS), INSIDE))
ADDRESSES = [
    "127.0.0.1", "127.0.0.1:", ":8000", "8000", "[::1]:0", "[::1", "[::1]:8000:1", "127.0.0.1:٣",
    "127.0.0.1:65536", "127.0.0.1:-1", "127.0.0.1:8000 0.0.0.0:8000", "127.0.0.1:80\n00",
    "0.0.0.0:8000", "[::]:8000", "256.1.1.1:8000", "localhost.:80a", "*:8000", "*", "unix:/x:1",
    "http://127.0.0.1:8000", "xn--\u0301:8000", "." * 300 + ":8000", "a..b:8000", "\udcff:8000",
    "ż" * 64 + ":8000", "::1:8000", "127.0.0.1:00001",
]  # fmt: skip
PROXIES = ["", "*", "127.0.0.1", "::1", "127.0.0.1, 10.0.0.1", "\x1b", "localhost", "0.0.0.0/0"]

TABLE = {
    "backup": {"file": (["new.zip", "season.zip"], FILE_NAMES), "--without-key": FLAG},
    "bench": {
        "--only": (["season pages", "", "gathered", "day pack", "called"], TEXTS),
        "--lists": numbers(1, 2),
        "--seconds": numbers(0.01, 1),
        "--peer-seconds": numbers(0, 0.01),
    },
    "calendar": {"wedding": OUT_WEDDING, "--out": (["new.ics", "taken.pdf"], FILE_NAMES)},
    "daypack": {
        "wedding": OUT_WEDDING,
        "--out": (["new.pdf", "taken.pdf", "link.pdf"], FILE_NAMES),
        "--paper": (["day-pack", "coordinator", "agenda", "calling-list"], INSIDE),
        "--for": (["second", "dj"], INSIDE),
        "--parts": (
            ["cover", "groups,light", " groups , ", "times", "", ",", "cover,cover"],
            INSIDE,
        ),
        "--size": (["a4", "a6", "a6-pages"], INSIDE),
        "--grey": FLAG,
    },
    "demo": {"--no-serve": FLAG, "--port": numbers(0, 18765)},
    "erase": {"wedding": WEDDING, "--yes": FLAG, "--look": FLAG},
    "light": {
        "--at": among(["51.5,-0.12", "-36.85,174.76"], PLACES),
        "--zone": among(["Europe/London", "Pacific/Auckland"], PLACES),
        "--date": among(["2026-06-20", "2026-12-21"], DATES),
        "--time": among(["17:30", "01:30"], TIMES),
        "--facing": numbers(0, 90, 359.9),
        "--visit": among(["2026-06-06"], DATES),
    },
    "migrate": {
        "app_label": among(["planning", "intake", "axes"], []),
        "migration_name": among(["0001", "zero", "0002"], ["00", "0"]),
        "--no-input": FLAG,
        "--database": chosen("default"),
        "--fake": FLAG,
        "--fake-initial": FLAG,
        "--plan": FLAG,
        "--run-syncdb": FLAG,
        "--check": FLAG,
        "--prune": FLAG,
        "--skip-backup": FLAG,
    },
    "order": {"file": (["list.json", "-"], TEXTS)},
    "restore": {"file": (["season.zip", "odd.zip"], FILE_NAMES), "--replace": FLAG},
    "retention": {
        "--erase": FLAG,
        "--most": numbers(0, 25),
        "--today": among([date.today().isoformat()], DATES),
    },
    "serve": {
        "--listen": among(["127.0.0.1:18766", "localhost:18767"], ADDRESSES),
        "--proxy": among(["127.0.0.1", "*"], PROXIES),
    },
    "timeline": {"file": (["day.json", "-"], TEXTS)},
}
NO_JSON = {"migrate", "serve"}  # Django's own, and one that gives no answer
# What Django puts beside them. --settings and --pythonpath are read before any command is there.
EVERYWHERE = {
    "--verbosity": (["0", "1", "3"], INSIDE),
    "--no-color": FLAG,
    "--force-color": FLAG,
    "--skip-checks": FLAG,
    "--version": FLAG,
    "--help": FLAG,
}
OF_DEVELOPERS = {"--settings", "--pythonpath", "--traceback"}
WRITES = {"backup", "calendar", "daypack"}


def arguments_of(command):
    return TABLE[command] | ({} if command in NO_JSON else {"--json": FLAG})


@st.composite
def typed(draw, command):
    """The words after a command: most of them good, up to two odd, in any order."""
    asked = arguments_of(command)
    odd = draw(st.sets(st.sampled_from([*asked, *EVERYWHERE]), max_size=2))
    groups = []
    for name, values in (asked | {n: v for n, v in EVERYWHERE.items() if n in odd}).items():
        groups += one_of_them(draw, name, values, name in odd)
    if draw(st.integers(0, 9)) == 0:
        strays = st.one_of(INSIDE, st.sampled_from(["--", "-", "--x", "-\x1b[31m", "--json=x"]))
        groups.append([draw(strays)])
    words = [word for group in draw(st.permutations(groups)) for word in group]
    return words


def one_of_them(draw, name, values, odd):
    """An argument as it would be typed, or as nobody would: a list of lists of words."""
    is_option = name.startswith("-")
    if values is FLAG:
        return [[name]] if odd or draw(st.booleans()) else []
    good, strange = values
    value = draw(strange if odd else st.sampled_from(good))
    if not is_option:
        return [[value]] if not odd or draw(st.integers(0, 5)) else []
    ways = [[[f"{name}={value}"]], [[name, value]]]
    ways += [[], [[name]], [[name, value], [name, draw(st.sampled_from(good))]]] if odd else []
    if not odd and name in OPTIONAL and draw(st.booleans()):
        return []
    return draw(st.sampled_from(ways))


OPTIONAL = {"--paper", "--for", "--parts", "--size", "--time", "--facing", "--visit", "--today"}


def lay_out(folder):
    """What the words above may find in the folder that they are typed in."""
    for name in ("folder", "folder/inner"):
        (folder / name).mkdir()
    (folder / "taken.pdf").write_bytes(b"what was there before")
    (folder / "link.pdf").symlink_to("taken.pdf")
    (folder / "loop").symlink_to("loop")
    (folder / "list.json").write_text(json.dumps(GROUPS))
    (folder / "day.json").write_text(json.dumps(DAY))
    (folder / "season.zip").write_bytes(WHOLE)
