"""Pages of a PDF as pictures, by poppler, and words as pictures, by FreeType and HarfBuzz.

Neither of the two that draw has anything to do with how our papers are made.
"""

import re
import subprocess
from functools import cache
from pathlib import Path

from PIL import Image, ImageChops, ImageDraw, ImageFilter, ImageFont, ImageOps, ImageStat

FONTS = Path(__file__).parent.parent.parent / "static" / "fonts"
DPI = 300
WORD = re.compile(r'<word xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.*?)</word>')


def _run(*command):
    return subprocess.run(command, capture_output=True, check=True, timeout=60).stdout


def page_pictures(pdf, folder, dpi):
    """Every page in grey; black is ink."""
    _run("pdftoppm", "-r", str(dpi), "-gray", "-png", pdf, folder / pdf.stem)
    return [Image.open(each).convert("L") for each in sorted(folder.glob(f"{pdf.stem}-*.png"))]


def words_drawn(pdf, pages):
    """Each word of the text layer, and the picture of what is drawn where it should stand."""
    layers = _run("pdftotext", "-bbox", pdf, "-").decode().split("<page ")[1:]
    for layer, page in zip(layers, pages, strict=True):
        for *corners, word in WORD.findall(layer):
            left, top, right, bottom = (float(each) * DPI / 72 for each in corners)
            yield word, page.crop((int(left) - 2, int(top), int(right) + 3, int(bottom) + 1))


@cache
def written(word, font):
    """A word as it should look, in one of our whole fonts."""
    face = ImageFont.truetype(FONTS / f"{font}.ttf", 100, layout_engine=ImageFont.Layout.RAQM)
    paper = Image.new("L", (200 + 100 * len(word), 400), 255)
    ImageDraw.Draw(paper).text((100, 100), word, font=face, fill=0)
    return paper


def _ink(picture, size=None):
    """What is drawn alone, ink white on black; as large as `size` says."""
    ink = ImageOps.invert(picture)
    ink = ink.crop(ink.point(lambda tone: 255 * (tone > 60)).getbbox() or (0, 0, 1, 1))
    return ink.resize(size, Image.Resampling.LANCZOS) if size else ink


def differs(drawn, wanted):
    """How much of the ink of two pictures of words is not in both, as a share, 0 to 1.

    Each is taken to the same box of ink, and what lies within a hair of the other's ink counts as
    the same: two that draw never agree on the edge of a letter. 1 where the boxes differ in shape.
    """
    one, other = _ink(drawn), _ink(wanted)
    shapes = (one.width / one.height, other.width / other.height)
    if not 0.93 < shapes[0] / shapes[1] < 1.07:
        return 1.0
    size = (round(64 * shapes[1]), 64)
    one, other = (
        _ink(each, size).point(lambda tone: 255 * (tone > 110)) for each in (drawn, wanted)
    )
    return _apart(one, other, 5)


def strays(page, known):
    """The same for two whole pages of one size, each ink where it stands on its page."""
    if page.size != known.size:
        return 1.0
    one, other = (
        ImageOps.invert(each).point(lambda tone: 255 * (tone > 70)) for each in (page, known)
    )
    return _apart(one, other, 3)


def _apart(one, other, hair):
    alone = [
        ImageChops.subtract(mine, yours.filter(ImageFilter.MaxFilter(hair)))
        for mine, yours in ((one, other), (other, one))
    ]
    ink = ImageStat.Stat(one).sum[0] + ImageStat.Stat(other).sum[0]
    return sum(ImageStat.Stat(each).sum[0] for each in alone) / ink
