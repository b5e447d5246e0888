"""SVG file: one leaf in true millimetres, for cutters, plotters and drawing programs.

One user unit is one mm; y is turned down, as the format has it. Named groups are groups of that
name; text stays text in the nearest face the reader has.
"""

import math
from collections.abc import Iterable, Iterator
from itertools import count
from xml.sax.saxutils import escape, quoteattr

from holeplacer.paper import font
from holeplacer.paper.display_list import (
    BLACK,
    Box,
    Circle,
    Colour,
    Group,
    Item,
    Leaf,
    Line,
    Path,
    Pen,
    Subpath,
    Text,
)

_FAMILY = "Bitstream Vera Sans, DejaVu Sans, Verdana, sans-serif"


def svg_bytes(leaf: Leaf, *, title: str = "", description: str = "") -> bytes:
    """The leaf as an SVG file; the same leaf always gives the same bytes."""
    wide, high = _n(leaf.width_mm), _n(leaf.height_mm)
    replay = _Replay(leaf.height_mm)
    box = f'width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}"'
    look = f'font-family="{_FAMILY}" stroke-linejoin="round"'
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" {box} {look}>',
        f"<title>{escape(font.printable(title))}</title>",
        f"<desc>{escape(font.printable(description))}</desc>",
        *replay.items(leaf.items),
        "</svg>",
    ]
    return "\n".join(lines).encode() + b"\n"


class _Replay:
    """Writes items, y turned down from a leaf's upper edge."""

    def __init__(self, height_mm: float) -> None:
        self._height = height_mm
        self._clips = count(1)

    def items(self, items: Iterable[Item]) -> Iterator[str]:
        for item in items:
            match item:
                case Line():
                    yield self._line(item)
                case Path():
                    yield from self._path(item)
                case Circle():
                    at = f'cx="{_n(item.x_mm)}" cy="{self._y(item.y_mm)}" r="{_n(item.radius_mm)}"'
                    yield f"<circle {at}{_look(item.pen, item.fill)}/>"
                case Text():
                    yield self._text(item)
                case Group():
                    yield from self._group(item)

    def _y(self, y_mm: float) -> str:
        return _n(self._height - y_mm)

    def _line(self, item: Line) -> str:
        start = f'x1="{_n(item.x1_mm)}" y1="{self._y(item.y1_mm)}"'
        end = f'x2="{_n(item.x2_mm)}" y2="{self._y(item.y2_mm)}"'
        return f"<line {start} {end}{_look(item.pen, None)}/>"

    def _path(self, item: Path) -> Iterator[str]:
        runs = "".join(self._run(part) for part in item.subpaths if len(part.xy) > 1)
        if runs:
            rule = "" if item.fill is None else ' fill-rule="evenodd"'
            yield f'<path d="{runs}"{rule}{_look(item.pen, item.fill)}/>'

    def _run(self, part: Subpath) -> str:
        first, *others = [f"{_n(x)},{self._y(y)}" for x, y in part.xy.tolist()]
        step = "C" if part.cubic else "L"
        return f"M{first}{step}{' '.join(others)}{'Z' if part.closed else ''}"

    def _text(self, item: Text) -> str:
        x, y = _n(item.x_mm), self._y(item.y_mm)
        look = f' font-size="{_n(item.size_mm)}"'
        if item.anchor != "start":
            look += f' text-anchor="{item.anchor}"'
        if item.bold:
            look += ' font-weight="bold"'
        if item.colour != BLACK:
            look += f' fill="{_hex(item.colour)}"'
        if item.angle_rad:
            look += f' transform="rotate({_n(-math.degrees(item.angle_rad))} {x} {y})"'
        return f'<text x="{x}" y="{y}"{look}>{escape(font.printable(item.text))}</text>'

    def _group(self, item: Group) -> Iterator[str]:
        name = f" id={quoteattr(item.name)}" if item.name else ""
        if item.clip_mm is None:
            yield f"<g{name}>"
        else:
            clip = f"clip{next(self._clips)}"
            yield f'<clipPath id="{clip}"><rect {self._box(item.clip_mm)}/></clipPath>'
            yield f'<g{name} clip-path="url(#{clip})">'
        yield from self.items(item.items)
        yield "</g>"

    def _box(self, box: Box) -> str:
        left, bottom, right, top = box
        size = f'width="{_n(right - left)}" height="{_n(top - bottom)}"'
        return f'x="{_n(left)}" y="{self._y(top)}" {size}'


def _look(pen: Pen | None, fill: Colour | None) -> str:
    look = f' fill="{"none" if fill is None else _hex(fill)}"'
    if pen is None:
        return look
    look += f' stroke="{_hex(pen.colour)}" stroke-width="{_n(pen.width_mm)}"'
    if pen.dash_mm:
        look += f' stroke-dasharray="{" ".join(_n(length) for length in pen.dash_mm)}"'
    return look


def _hex(colour: Colour) -> str:
    return "#" + "".join(f"{round(255 * part):02x}" for part in colour)


def _n(value: float) -> str:
    text = f"{value:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
