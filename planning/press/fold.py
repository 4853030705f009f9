"""A6 pages on A4 paper: four on one side of a sheet, which is folded twice and needs no knife.

Fold the upper half back behind the lower one, so that print is outside, then the left half behind
the right one: the first page is in front, the second and third are inside. The upper two stand on
their heads on the flat sheet. It is printed on one side only, so that any printer does.

Pages keep their tags, bookmarks and links: WeasyPrint paints four of them on one stream.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

PX = 96 / 25.4  # CSS pixels in a millimetre
WIDTH, HEIGHT = 105 * PX, 148.5 * PX  # a quarter of A4 (ISO 216)
A_SHEET = 4
# Column and row of each page on the flat sheet, and whether it stands on its head.
PANELS = ((1, 1, False), (1, 0, True), (0, 0, True), (0, 1, False))
HAIR, FAINT = 0.5, (0.6, 0.6, 0.6)
MARGIN, RULE = 9 * PX, 8 * PX  # of the lines on a panel that no page fills


@dataclass(frozen=True)
class Panel:
    """A quarter of the sheet, with its top left corner at (x, y)."""

    x: float
    y: float
    turned: bool

    @property
    def matrix(self) -> tuple[float, ...]:
        if self.turned:
            return (-1, 0, 0, -1, self.x + WIDTH, self.y + HEIGHT)
        return (1, 0, 0, 1, self.x, self.y)

    def point(self, x: float, y: float) -> tuple[float, float]:
        a, _b, _c, d, e, f = self.matrix
        return a * x + e, d * y + f

    def area(self, x: float, y: float, to_x: float, to_y: float) -> tuple[float, ...]:
        return (*self.point(x, y), *self.point(to_x, to_y))


LAID = tuple(Panel(column * WIDTH, row * HEIGHT, turned) for column, row, turned in PANELS)


@dataclass
class FlatSheet:
    """What WeasyPrint asks of a page, answered for four of them."""

    pages: list[Any]
    width: float = 2 * WIDTH
    height: float = 2 * HEIGHT
    bleed: dict[str, float] = field(
        default_factory=lambda: dict.fromkeys(("top", "right", "bottom", "left"), 0)
    )
    forms: dict[None, list[Any]] = field(default_factory=lambda: {None: []})

    @property
    def bookmarks(self) -> list[Any]:
        return [
            (level, label, panel.point(*target), state)
            for panel, page in self._laid()
            for level, label, target, state in page.bookmarks
        ]

    @property
    def links(self) -> list[Any]:
        return [
            (kind, target, panel.area(*area), box)
            for panel, page in self._laid()
            for kind, target, area, box in page.links
        ]

    @property
    def anchors(self) -> dict[str, tuple[float, ...]]:
        laid = [(panel, page.anchors) for panel, page in self._laid()]
        return {name: panel.area(*at) for panel, named in laid for name, at in named.items()}

    @property
    def _page_box(self) -> Any:
        """A box around those of the pages: the tree of tags is read from it."""
        first = self.pages[0]._page_box
        return first.copy_with_children([page._page_box for page in self.pages])

    def _laid(self) -> list[tuple[Panel, Any]]:
        return list(zip(LAID, self.pages, strict=False))

    def paint(self, stream: Any, scale: float = 1) -> None:
        with stream.stacked():
            stream.transform(a=scale, d=scale)
            for panel, page in self._laid():
                with stream.stacked():
                    stream.transform(*panel.matrix)
                    stream.rectangle(0, 0, WIDTH, HEIGHT)
                    stream.clip()
                    stream.end()
                    page.paint(stream)
            with stream.stacked(), stream.artifact():
                self._lines(stream)

    def _lines(self, stream: Any) -> None:
        """Where to fold, and lines to write on where no page is."""
        stream.set_color_rgb(*FAINT, stroke=True)
        stream.set_line_width(HAIR)
        for panel in LAID[len(self.pages) :]:
            for i in range(1, int((HEIGHT - 2 * MARGIN) // RULE) + 1):
                y = panel.y + MARGIN + i * RULE
                _line(stream, panel.x + MARGIN, y, panel.x + WIDTH - MARGIN, y)
        stream.set_dash([2, 6], 0)
        _line(stream, WIDTH, 0, WIDTH, self.height)
        _line(stream, 0, HEIGHT, self.width, HEIGHT)


def _line(stream: Any, x: float, y: float, to_x: float, to_y: float) -> None:
    stream.move_to(x, y)
    stream.line_to(to_x, to_y)
    stream.stroke()


def folded(document: Any) -> Any:
    """A document of A6 pages as one of A4 sheets."""
    pages = document.pages
    groups = [pages[i : i + A_SHEET] for i in range(0, len(pages), A_SHEET)]
    return document.copy([FlatSheet(group) for group in groups])
