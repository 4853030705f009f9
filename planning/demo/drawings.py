"""Invented pictures for the demo: flat drawings, made here, of nobody and of nowhere."""

from __future__ import annotations

import io
from collections.abc import Callable

from PIL import Image, ImageDraw

WIDE, TALL = (1600, 1200), (1200, 1600)
INK, CREAM, PINE, GOLD, ROSE = "#2B2A33", "#FBF3E0", "#1E5B4F", "#E8B44A", "#C9796B"


def sky(size: tuple[int, int], top: str, bottom: str) -> Image.Image:
    """Two colours that run into each other, from the top to the bottom."""
    fade = Image.linear_gradient("L").resize(size)
    return Image.composite(Image.new("RGB", size, bottom), Image.new("RGB", size, top), fade)


def person(draw: ImageDraw.ImageDraw, x: int, y: int, tall: int, colour: str, skirt: bool) -> None:
    """A figure that stands with its feet at (x, y)."""
    head, wide = tall // 8, tall // (3 if skirt else 6)
    draw.ellipse((x - head // 2, y - tall, x + head // 2, y - tall + head), fill=INK)
    shoulder, neck = tall // 9, y - tall + head
    body = [(x - shoulder, neck), (x + shoulder, neck), (x + wide, y), (x - wide, y)]
    draw.polygon(body, fill=colour)


def orchard() -> Image.Image:
    picture = sky(WIDE, "#F7DFA8", "#E9B872")
    draw = ImageDraw.Draw(picture)
    draw.ellipse((690, 330, 910, 550), fill="#FFF3CF")
    draw.rectangle((0, 820, 1600, 1200), fill="#7C8F4E")
    for side in (-1, 1):
        for step, size in enumerate((420, 320, 230, 160)):
            x, y = 800 + side * (720 - step * 170), 900 - step * 22
            draw.rectangle((x - 14, y - size, x + 14, y), fill="#5B4632")
            draw.ellipse((x - size // 2, y - size * 2, x + size // 2, y - size // 2), fill=PINE)
    person(draw, 760, 1010, 330, INK, skirt=False)
    person(draw, 860, 1010, 310, CREAM, skirt=True)
    return picture


def long_table() -> Image.Image:
    picture = sky(WIDE, "#20303A", "#45433C")
    draw = ImageDraw.Draw(picture)
    draw.polygon([(720, 560), (880, 560), (1400, 1200), (200, 1200)], fill=CREAM)
    for row, y in enumerate((600, 680, 800, 970)):
        spread, size = 60 + row * 95, 14 + row * 9
        for x in (800 - spread, 800 + spread):
            draw.ellipse((x - size, y - size, x + size, y + size), fill=ROSE)
        draw.rectangle((797 - row, y - size * 2, 803 + row, y), fill=GOLD)
    for x in range(60, 1600, 120):
        y = 120 + (x - 800) ** 2 // 5200
        draw.ellipse((x - 16, y - 16, x + 16, y + 16), fill="#FFE9A8")
    return picture


def hands() -> Image.Image:
    picture = sky(TALL, "#EFE4D2", "#D9C7AE")
    draw = ImageDraw.Draw(picture)
    draw.line([(0, 1330), (470, 900), (760, 760)], fill="#B98665", width=170, joint="curve")
    draw.line([(1200, 1250), (820, 880), (560, 740)], fill="#8C5A3F", width=150, joint="curve")
    draw.ellipse((600, 690, 760, 850), outline=GOLD, width=26)
    draw.rectangle((0, 1380, 1200, 1600), fill=PINE)
    return picture


def veil() -> Image.Image:
    picture = sky(TALL, "#A9BCC8", "#E7E2D6")
    draw = ImageDraw.Draw(picture)
    draw.polygon([(0, 1300), (700, 1120), (1200, 1240), (1200, 1600), (0, 1600)], fill="#6E7F63")
    draw.polygon([(560, 640), (1130, 520), (1010, 900), (640, 1230)], fill="#F6F2EA")
    person(draw, 560, 1260, 640, CREAM, skirt=True)
    person(draw, 380, 1260, 690, INK, skirt=False)
    return picture


def confetti() -> Image.Image:
    picture = sky(WIDE, "#CFE0E6", "#F3EBDD")
    draw = ImageDraw.Draw(picture)
    draw.rectangle((520, 260, 1080, 1200), fill="#8B6A4A")
    draw.ellipse((520, 20, 1080, 500), fill="#8B6A4A")
    for i in range(260):  # scattered, and the same on every run
        x, y = i * 577 % 1600, i * 331 % 900
        draw.ellipse((x, y, x + 16, y + 12), fill=(ROSE, GOLD, CREAM, PINE)[i % 4])
    person(draw, 740, 1130, 420, INK, skirt=False)
    person(draw, 880, 1130, 400, CREAM, skirt=True)
    return picture


def barn_door() -> Image.Image:
    picture = sky(WIDE, "#4A4038", "#2E2823")
    draw = ImageDraw.Draw(picture)
    draw.rectangle((980, 180, 1420, 1200), fill="#FFF6DD")
    draw.polygon([(980, 180), (980, 1200), (260, 1200)], fill="#8F7B5C")
    person(draw, 820, 1140, 560, CREAM, skirt=True)
    return picture


def as_jpeg(draw: Callable[[], Image.Image]) -> bytes:
    file = io.BytesIO()
    draw().save(file, "JPEG", quality=88)
    return file.getvalue()
