"""Whether a PDF draws a word with the letters it is written in: text extraction alone cannot tell.

The drawn glyphs are taken from the page's own show-text operators and from the font inside the
file, and their outlines are compared with those of the whole font we ship.
"""

from io import BytesIO
from pathlib import Path

from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.ttLib import TTFont
from pypdf import PdfReader
from pypdf.generic import ContentStream

FONTS = Path(__file__).parent.parent.parent / "static" / "fonts"


def outline(font: TTFont, glyph: str):
    """The drawing of a glyph, components taken apart, points rounded."""
    pen = DecomposingRecordingPen(font.getGlyphSet())
    font.getGlyphSet()[glyph].draw(pen)
    return pen.value


def shown(page) -> dict[str, list[bytes]]:
    """The strings each font of a page shows, in order, kerning taken out."""
    texts: dict[str, list[bytes]] = {}
    font = ""
    for operands, operator in ContentStream(page["/Contents"], page.pdf).operations:
        if operator == b"Tf":
            font = operands[0]
        elif operator in (b"Tj", b"TJ"):
            parts = operands[0] if operator == b"TJ" else operands
            raw = b"".join(p.original_bytes for p in parts if hasattr(p, "original_bytes"))
            texts.setdefault(font, []).append(raw)
    return texts


def drawn_as_written(path, word: str) -> bool:
    """True if some page draws the word with our whole fonts' own outlines for its letters."""
    whole = {file.stem: TTFont(file) for file in FONTS.glob("*.ttf")}
    for page in PdfReader(path).pages:
        fonts = page["/Resources"]["/Font"]
        for name, strings in shown(page).items():
            descendant = fonts[name]["/DescendantFonts"][0]
            data = descendant["/FontDescriptor"]["/FontFile2"].get_data()
            embedded = TTFont(BytesIO(data))
            for original in whole.values():
                if any(_draws(embedded, original, raw, word) for raw in strings):
                    return True
    return False


def _draws(embedded: TTFont, original: TTFont, raw: bytes, word: str) -> bool:
    order, cmap = embedded.getGlyphOrder(), original.getBestCmap()
    ids = [int.from_bytes(raw[i : i + 2], "big") for i in range(0, len(raw), 2)]
    if any(i >= len(order) for i in ids) or any(ord(letter) not in cmap for letter in word):
        return False
    drawn = [outline(embedded, order[i]) for i in ids]
    wanted = [outline(original, cmap[ord(letter)]) for letter in word]
    return any(drawn[i : i + len(word)] == wanted for i in range(len(drawn)))
