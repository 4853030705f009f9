"""Drawings for paper, as images: each carries alternative text, which an inline one would not."""

from __future__ import annotations

import base64

INK = "#22262B"
SVG = "data:image/svg+xml;base64,"


def as_image(svg: str) -> str:
    ink = svg.replace("currentColor", INK)
    return SVG + base64.b64encode(ink.encode()).decode() if svg else ""
