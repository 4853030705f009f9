"""JSON files that nobody would write: a good one with other things in it, or hardly JSON."""

import copy
import json

from hypothesis import strategies as st

from tests.odd import DATES, FILES, TEXT, TIMES

# With every key that each may have.
GROUPS = {
    "presence": "gathered",
    "walk_price": 0.2,
    "seconds": 0.1,
    "largest_first": False,
    "weights": {"Ana": 3},
    "groups": [
        {"id": "a", "title": "Zoë", "people": ["Ana", "Bo"], "extra": 3, "minutes": 3.5},
        {"id": "b", "people": ["Bo", "Cy"]},
        {"id": "c", "people": ["Ana", "Di"], "minutes": 2},
    ],
    "rules": [
        {"before": "a", "after": "b"},
        {"first": "a"},
        {"last": "c"},
        {"free": "Bo", "by_position": 3},
        {"apart": ["Cy", "Di"]},
    ],
}
DAY = {
    "date": "2026-06-20",
    "zone": "Europe/Madrid",
    "wanted": 0.9,
    "home": "home",
    "blocks": [
        {"id": "vows", "title": "Vows", "kind": "ceremony", "minutes": [30, 35, 40],
         "fixed": "14:00", "place": "church", "start_delay": [0, 5, 20], "movable": False},
        {"id": "groups", "minutes": [20, 30, 40], "after": ["vows"], "place": "church",
         "short": 15, "droppable": True, "importance": 5, "photographer": True},
        {"id": "meal", "title": "Déjeuner", "minutes": [60, 90, 120], "place": "venue",
         "window": ["16:00", "19:30"], "after": ["groups"], "wished": "17:00"},
    ],
    "travel": [
        {"from": "home", "to": "church", "minutes": 20},
        {"from": "church", "to": "venue", "minutes": 25},
        {"from": "venue", "to": "home", "minutes": 10},
    ],
}  # fmt: skip
NUMBERS = st.sampled_from(
    [
        *(0, -0.0, -1, 1, 2, 3, 0.1, 0.5, 24 * 60, 24 * 60 + 1, 0.30000000000000004),
        *(1e-320, 1e308, -1e308, 2**31, 2**63, 10**9, 10**400),
        *(float("nan"), float("inf"), -float("inf")),
    ]
)
SCALARS = st.one_of(
    NUMBERS,
    TEXT,
    st.sampled_from([*DATES, *TIMES, "vows", "a", "b", "Ana", "called", "church", "home", "06:00"]),
    st.sampled_from([None, True, False]),
    st.floats(),
    st.integers(),
)
VALUES = st.recursive(
    SCALARS,
    lambda inner: st.one_of(
        st.lists(inner, max_size=4), st.dictionaries(st.one_of(TEXT, st.just("id")), inner)
    ),
    max_leaves=5,
)
HARDLY = [
    b"", b"{", b"[]", b"null", b"NaN", b'"' + b"a" * 9_999 + b'"', b"[" * 100_000, b"{}",
    b'{"groups": ' + b"[" * 3_000 + b"]" * 3_000 + b"}", b'{"blocks": ' + b"9" * 5_000 + b"}",
    b'{"a":' * 2_000 + b"1" + b"}" * 2_000, b'{"groups": [], "groups": [{"id": "a"}]}',
    b"\xff\xfe{\0}\0", b"\xef\xbb\xbf{}", b"\xff", b"\0", b"{'groups': []}", b'{"groups": [],}',
    b'{"\x1b[31m": 1}', b'{"\\u001b[31m\\n\\u202e": 1}', b'{"\\ud800": 1}', b"\x1b]0;x\x07",
]  # fmt: skip


def places(value, way=()):
    """The way to every value inside a document."""
    yield way
    if isinstance(value, dict | list):
        for key in value if isinstance(value, dict) else range(len(value)):
            yield from places(value[key], (*way, key))


@st.composite
def changed(draw, example):
    """The example with up to three values that are others, gone, there twice or under odd names."""
    document = copy.deepcopy(example)
    for _turn in range(draw(st.integers(0, 3))):
        way = draw(st.sampled_from(list(places(document))))
        if not way:
            continue
        holder = document
        for key in way[:-1]:
            holder = holder[key]
        act = draw(st.sampled_from(["other", "other", "other", "gone", "again", "named"]))
        if act == "other":
            holder[way[-1]] = draw(VALUES)
        elif act == "gone":
            del holder[way[-1]]
        elif isinstance(holder, list):
            holder.extend([copy.deepcopy(holder[way[-1]])] * draw(st.sampled_from([1, 1, 2, 600])))
        else:
            holder[draw(st.one_of(TEXT, st.sampled_from(sorted(holder))))] = holder[way[-1]]
    return document


@st.composite
def files(draw, example):
    """What may lie in a file, as bytes."""
    way = draw(st.integers(0, 9))
    if way == 0:
        return draw(st.one_of(st.sampled_from(HARDLY), FILES, st.binary(max_size=40)))
    text = json.dumps(draw(changed(example)), ensure_ascii=draw(st.booleans()))
    content = text.encode("utf-8", "surrogatepass")
    if way == 1:  # cut off, or with something in between
        at = draw(st.integers(0, len(content)))
        return content[:at] + draw(st.sampled_from([b"", b"\xff", b"\0", b'"', b"NaN", b","]))
    if way == 2:
        return text.encode(draw(st.sampled_from(["utf-8-sig", "utf-16", "utf-32"])), "replace")
    return content
