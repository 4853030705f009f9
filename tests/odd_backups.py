"""Files for `restore` that `backup` has never written."""

import zipfile
from io import BytesIO

from hypothesis import strategies as st

from planning.backup.archive import DATABASE, MANIFEST
from tests.odd import FILES, TEXT
from tests.odd_json import VALUES
from tests.planning.backup.test_archive import APPLIED, PICTURE, changed, database_of, packed, sums

DATABASES = [
    b"",
    b"SQLite format 3\0" + b"\0" * 500,
    database_of("CREATE TABLE x (y)"),
    database_of(APPLIED),
    database_of(APPLIED, "INSERT INTO django_migrations VALUES (1, 'intake', '0002', 0)"),
    database_of(
        APPLIED,
        "INSERT INTO django_migrations VALUES (1, 'planning', '0001_initial', '2026-01-01')",
    ),
    database_of("CREATE TABLE django_migrations (x)"),
    database_of("CREATE TABLE auth_user (x)", "CREATE VIEW v AS SELECT 1"),
    database_of("CREATE TABLE intake_wedding (public_id TEXT)"),
]
WHOLE = packed({DATABASE: database_of(APPLIED)})  # as little as goes through every check
KEYS = ["version", "made_at", "database", "migrations", "key_mark", "weddings", "missing"]
KEYS += ["members", "what", "form", "unheard"]


def squeezed(way, spoilt=False):
    """A zip of a manifest alone, packed as none of ours is."""
    file = BytesIO()
    with zipfile.ZipFile(file, "w", way) as made:
        made.writestr(MANIFEST, b"{}" * 500)
    content = bytearray(file.getvalue())
    if spoilt:
        content[52:60] = b"\xff" * 8
    return bytes(content)


@st.composite
def archives(draw):
    """Cut off, with bytes that are others, with an odd manifest, or with an odd database."""
    way = draw(st.integers(0, 6))
    if way == 0:
        return WHOLE[: draw(st.integers(0, len(WHOLE)))]
    if way == 1:
        at = draw(st.integers(0, len(WHOLE) - 1))
        return WHOLE[:at] + draw(st.binary(min_size=1, max_size=4)) + WHOLE[at + 1 :]
    if way == 2:
        return draw(FILES)
    if way == 3:
        return squeezed(draw(st.sampled_from([0, 8, 12, 14])), draw(st.booleans()))
    if way == 4:
        return packed({DATABASE: draw(st.sampled_from(DATABASES))})
    if way == 5:
        name = draw(st.one_of(TEXT, st.sampled_from([PICTURE, "../x", "/etc/x", MANIFEST])))
        return changed(manifest=sums(**{name.encode("utf-8", "replace").decode(): [1, "00"]}))
    odd = st.one_of(VALUES, st.lists(TEXT, max_size=2), TEXT)
    return changed(manifest={draw(st.sampled_from(KEYS)): draw(odd)}, whole=WHOLE)
