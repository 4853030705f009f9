"""A PDF without colour: every colour becomes the grey that is as bright."""

from __future__ import annotations

import base64
import io
import re
from typing import Any

from PIL import Image

# Rec. ITU-R BT.709-6, 3.2: how much each primary counts for brightness.
RED, GREEN, BLUE = 0.2126, 0.7152, 0.0722
NUMBER = rb"(-?\d*\.?\d+)"
COLOUR = re.compile(rb"^" + rb"\s+".join([NUMBER] * 3) + rb"\s+(rg|RG)$")


def grey_jpeg(encoded: str) -> str:
    """A JPEG in base64 as one of a single channel."""
    file = io.BytesIO()
    with Image.open(io.BytesIO(base64.b64decode(encoded))) as picture:
        picture.convert("L").save(file, "JPEG", quality=85, optimize=True)
    return base64.b64encode(file.getvalue()).decode()


def without_colour(document: Any, pdf: Any) -> None:
    """A finisher of WeasyPrint: rewrites the drawing operators before the file is written."""
    for each in pdf.objects:
        if hasattr(each, "stream"):
            each.stream = [_grey(line) for line in each.stream]
        group = getattr(each, "extra", {}).get("Group")
        if group is not None and group.get("CS") == "/DeviceRGB":
            group["CS"] = "/DeviceGray"


def _grey(line: Any) -> Any:
    """`r g b rg` as `y g`: the non-stroking and stroking operators of ISO 32000-1, table 74."""
    found = COLOUR.match(line) if isinstance(line, bytes) else None
    if not found:
        return line
    red, green, blue = (float(found[i]) for i in (1, 2, 3))
    level = f"{RED * red + GREEN * green + BLUE * blue:.4f}".rstrip("0").rstrip(".")
    return level.encode() + (b" g" if found[4] == b"rg" else b" G")
