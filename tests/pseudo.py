"""Two languages nobody speaks, made of the English words, to prove what any language may do.

"en-xa" has accents and is two fifths longer; "ar-xb" runs from right to left. They exist in tests
only, and are never offered to anybody.
"""

import re

from studio import catalogues

LONG, MIRRORED = "en-xa", "ar-xb"
NAMES = [(LONG, "Long"), (MIRRORED, "Mirrored")]
ACCENTS = str.maketrans(
    "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "áƀćďéƒǧĥíĵķļɱñóþɋřšţúṽŵẋýžÁƁĆĎÉƑǦĤÍĴĶĻṀÑÓÞɊŘŠŢÚṼŴẊÝŽ",
)
KEPT = re.compile(r"(%\(\w+\)[sd]|\{\w+\}|<[^>]*>)")
OVERRIDE, POP = "\u202e", "\u202c"  # right-to-left override, and its end


def longer(text):
    """Each vowel twice: words themselves grow by about two fifths, as in Finnish or German."""
    return re.sub(r"([aeiouyAEIOUY])", r"\1\1", text).translate(ACCENTS)


def mirrored(text):
    lead, body, trail = re.fullmatch(r"(\s*)(.*?)(\s*)", text, re.DOTALL).groups()
    return f"{lead}{OVERRIDE}{body.translate(ACCENTS)}{POP}{trail}" if body else text


def pseudo(text, change):
    return "".join(piece if KEPT.fullmatch(piece) else change(piece) for piece in KEPT.split(text))


def write_locale(folder):
    """Compiled catalogues of both under `folder`, for LOCALE_PATHS."""
    for code, change in ((LONG, longer), (MIRRORED, mirrored)):
        catalog = catalogues.topped_up(code[:2])
        for message in catalog:
            if message.id and "date" not in (message.context or ""):
                ids = message.id if message.pluralizable else [message.id]
                words = [pseudo(text, change) for text in ids]
                many = (words * catalog.num_plurals)[1 : catalog.num_plurals] if ids[1:] else []
                message.string = (words[0], *many) if message.pluralizable else words[0]
            elif message.id:
                message.string = message.id
        path = folder / f"{code[:2]}_{code[3:].upper()}" / "LC_MESSAGES" / "django.mo"
        path.parent.mkdir(parents=True)
        path.write_bytes(catalogues.as_mo(catalog))
