"""PDF file: papers as a file that prints at true size, its fonts embedded.

Page boxes are the leaves' sizes to a ten-thousandth of a point; positions bear seven significant
digits: a fifth of a micrometre at three metres, two at five. The file asks viewers not to scale it
when they print. The same papers always give the same bytes.
"""

import io
import math

from reportlab.pdfgen.canvas import Canvas

from holeplacer.errors import ExportError
from holeplacer.paper import font, size
from holeplacer.paper.display_list import (
    Circle,
    Colour,
    Group,
    Item,
    Leaf,
    Line,
    Papers,
    Path,
    Pen,
    Text,
)

POINT_MM = 25.4 / 72.0
_ROUND_JOIN = 1
_FIRST_SIZE = 10


def pdf_bytes(papers: Papers, *, compressed: bool = True) -> bytes:
    """The papers as a PDF file.

    Args:
        papers: What to write.
        compressed: Whether pages are compressed; plain ones are larger, and legible.

    Raises:
        ExportError: There is no leaf, or one is longer than 200 in.
    """
    _refuse(papers)
    stream = io.BytesIO()
    canvas = Canvas(
        stream,
        pagesize=_size(papers.leaves[0]),
        invariant=1,
        pageCompression=int(compressed),
        initialFontName=font.name(),
        initialFontSize=_FIRST_SIZE,
    )
    canvas.setTitle(papers.title)
    canvas.setSubject(papers.subject)
    canvas.setCreator("holeplacer")
    canvas.setViewerPreference("PrintScaling", "None")
    for leaf in papers.leaves:
        canvas.setPageSize(_size(leaf))
        canvas.setLineJoin(_ROUND_JOIN)
        _Replay(canvas).items(leaf.items)
        canvas.showPage()
    canvas.save()
    return stream.getvalue()


def _refuse(papers: Papers) -> None:
    if not papers.leaves:
        raise ExportError("there is nothing to print", where=papers.title)
    longest = max(max(leaf.width_mm, leaf.height_mm) for leaf in papers.leaves)
    if longest > size.LONGEST_MM + 1e-6:
        raise ExportError(
            f"a page {longest / 1000:.2f} m long can't be printed true to size",
            where=papers.title,
            remedy="divide it into lengths of 5.08 m (200 in) at most",
        )


def _size(leaf: Leaf) -> tuple[float, float]:
    return leaf.width_mm / POINT_MM, leaf.height_mm / POINT_MM


class _Replay:
    """Draws items onto a canvas, naming a pen or a colour only where it changes."""

    def __init__(
        self, canvas: Canvas, pen: Pen | None = None, colour: Colour | None = None
    ) -> None:
        self._canvas = canvas
        self._pen = pen
        self._colour = colour

    def items(self, items: tuple[Item, ...]) -> None:
        for item in items:
            match item:
                case Line():
                    self._take_pen(item.pen)
                    ends = (item.x1_mm, item.y1_mm, item.x2_mm, item.y2_mm)
                    self._canvas.line(*(value / POINT_MM for value in ends))
                case Path():
                    self._path(item)
                case Circle():
                    self._circle(item)
                case Text():
                    self._text(item)
                case Group():
                    self._group(item)

    def _take_pen(self, pen: Pen) -> None:
        before, self._pen = self._pen, pen
        if before == pen:
            return
        if before is None or before.width_mm != pen.width_mm:
            self._canvas.setLineWidth(pen.width_mm / POINT_MM)
        if before is None or before.colour != pen.colour:
            self._canvas.setStrokeColorRGB(*pen.colour)
        if before is None or before.dash_mm != pen.dash_mm:
            self._canvas.setDash([length / POINT_MM for length in pen.dash_mm])

    def _take_colour(self, colour: Colour) -> None:
        if self._colour != colour:
            self._canvas.setFillColorRGB(*colour)
            self._colour = colour

    def _style(self, pen: Pen | None, fill: Colour | None) -> dict[str, int]:
        if pen is not None:
            self._take_pen(pen)
        if fill is not None:
            self._take_colour(fill)
        return {"stroke": int(pen is not None), "fill": int(fill is not None)}

    def _path(self, item: Path) -> None:
        drawn = [part for part in item.subpaths if len(part.xy) > 1]
        if not drawn or (item.pen is None and item.fill is None):
            return
        path = self._canvas.beginPath()
        for part in drawn:
            first, *others = (part.xy / POINT_MM).tolist()
            path.moveTo(*first)
            if part.cubic:
                for one, two, end in zip(others[::3], others[1::3], others[2::3], strict=True):
                    path.curveTo(*one, *two, *end)
            else:
                for x, y in others:
                    path.lineTo(x, y)
            if part.closed:
                path.close()
        self._canvas.drawPath(path, **self._style(item.pen, item.fill), fillMode=0)

    def _circle(self, item: Circle) -> None:
        if item.pen is None and item.fill is None:
            return
        style = self._style(item.pen, item.fill)
        at = (value / POINT_MM for value in (item.x_mm, item.y_mm, item.radius_mm))
        self._canvas.circle(*at, **style)

    def _text(self, item: Text) -> None:
        self._take_colour(item.colour)
        points = item.size_mm / POINT_MM
        self._canvas.setFont(font.name(item.bold), points)
        shown = font.printable(item.text)
        back = {"start": 0.0, "middle": 0.5, "end": 1.0}[item.anchor]
        back *= font.width_mm(shown, item.size_mm, item.bold)
        cos, sin = math.cos(item.angle_rad), math.sin(item.angle_rad)
        x, y = item.x_mm - back * cos, item.y_mm - back * sin
        text = self._canvas.beginText()
        text.setTextTransform(cos, sin, -sin, cos, x / POINT_MM, y / POINT_MM)
        text.textOut(shown)
        self._canvas.drawText(text)

    def _group(self, item: Group) -> None:
        if item.clip_mm is None:
            self.items(item.items)
            return
        self._canvas.saveState()
        left, bottom, right, top = (value / POINT_MM for value in item.clip_mm)
        path = self._canvas.beginPath()
        path.rect(left, bottom, right - left, top - bottom)
        self._canvas.clipPath(path, stroke=0, fill=0)
        _Replay(self._canvas, self._pen, self._colour).items(item.items)
        self._canvas.restoreState()
