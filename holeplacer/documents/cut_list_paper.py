"""Cut list on paper: each sheet drawn small with its sections, beside it what they cost to cut."""

import io
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from reportlab.pdfgen.canvas import Canvas
from shapely.geometry import Polygon

from holeplacer.cutting.cut_figures import CutFigures, PartFigures
from holeplacer.cutting.sheet_layout import Placed
from holeplacer.documents import caution, cut_list
from holeplacer.documents.cut_list import CutList
from holeplacer.errors import InputError
from holeplacer.paper import font
from holeplacer.units import LengthUnit, format_length, format_mass, format_way

PAPERS = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height in mm: ISO 216 A4, ANSI A."""

_POINT_MM = 25.4 / 72.0
_MARGIN, _PICTURE_WIDE, _PICTURE_HIGH = 15.0, 76.0, 70.0
_GAP, _LINE, _BODY, _SMALL, _TITLE = 6.0, 4.2, 7.6, 6.6, 12.0
_NO_PEN = 0.1
_HEADS = ("Section", "Size", "Mass", "Contours", "Cut", "Holes*", "Weld")
_ENDS = (0.08, 0.36, 0.48, 0.615, 0.725, 0.835, 1.0)
"""Right ends of the columns, as shares of the table's width."""


def as_pdf(
    listed: CutList,
    *,
    paper: str = "a4",
    unit: LengthUnit = LengthUnit.MM,
    compressed: bool = True,
) -> bytes:
    """The list as a PDF file; the same list always gives the same bytes.

    Args:
        listed: What it says.
        paper: `a4` or `letter`.
        unit: What lengths are shown in.
        compressed: Whether pages are compressed; plain ones are larger, and legible.

    Raises:
        InputError: There is no such paper.
    """
    if paper not in PAPERS:
        raise InputError(f"there is no paper {paper!r}", remedy=f"take {' or '.join(PAPERS)}")
    stream = io.BytesIO()
    width, height = PAPERS[paper]
    canvas = Canvas(
        stream,
        pagesize=(width / _POINT_MM, height / _POINT_MM),
        invariant=1,
        pageCompression=int(compressed),
        initialFontName=font.name(),
    )
    canvas.setTitle(f"Cut list of {listed.name}")
    canvas.setSubject(caution.SHORT)
    _Writer(canvas, width, height, unit, height - _MARGIN).write(listed)
    canvas.save()
    return stream.getvalue()


@dataclass(eq=False)
class _Writer:
    """Goes down the paper, millimetres from its lower left corner.

    Attributes:
        canvas: What is drawn on.
        width, height: Of the paper.
        unit: What lengths are shown in.
        y: Where the next thing's upper edge is.
        page: Number of the page.
    """

    canvas: Canvas
    width: float
    height: float
    unit: LengthUnit
    y: float
    page: int = 1

    def write(self, listed: CutList) -> None:
        title, *lines = cut_list.heading(listed, self.unit)
        self._paragraph(title, _TITLE, bold=True)
        for line in lines:
            self._paragraph(line, _BODY)
        self._paragraph("* cut + to drill; size is that of the rectangle round it", _SMALL)
        self.y -= _GAP / 2
        lines = list(cut_list.sheet_lines(listed, self.unit))
        for index, (line, figures) in enumerate(zip(lines, listed.sheets, strict=True)):
            self._sheet(listed, index, line, figures)
        self._welding(cut_list.weld_lines(listed, self.unit))
        self._room_for(_GAP + _LINE * (len(caution.FULL) + 3))
        self._paragraph("Caution", _BODY, bold=True)
        for sentence in caution.FULL:
            self._paragraph(sentence, _SMALL)
        self._foot()

    def _sheet(self, listed: CutList, index: int, line: str, figures: CutFigures) -> None:
        """One sheet: its line, its picture on the left, its sections on the right."""
        scale, wide, high = self._scale(listed, index)
        self._room_for(high + 3 * _LINE + _GAP)
        self._paragraph(line, _BODY, bold=True)
        top = self.y
        self._picture(listed, index, scale, wide, high)
        page = self.page
        left = _MARGIN + _PICTURE_WIDE + _GAP
        self._table(figures.parts, left, self.width - _MARGIN - left)
        self.y = min(self.y, top - high) if self.page == page else self.y
        self.y -= _GAP

    def _welding(self, lines: Sequence[str]) -> None:
        """How seams are prepared, tacked and welded, line by line."""
        if not lines:
            return
        self._room_for(_GAP + 4 * _LINE)
        self._paragraph("Welding", _BODY, bold=True)
        for line in lines:
            self._paragraph(line, _BODY)
        self.y -= _GAP

    def _scale(self, listed: CutList, index: int) -> tuple[float, float, float]:
        stock = listed.layout.sheets[index].stock
        scale = min(_PICTURE_WIDE / stock.width_mm, _PICTURE_HIGH / stock.height_mm)
        return scale, scale * stock.width_mm, scale * stock.height_mm

    def _picture(self, listed: CutList, index: int, scale: float, wide: float, high: float) -> None:
        canvas, bottom = self.canvas, self.y - high
        canvas.saveState()
        canvas.setLineWidth(0.5)
        canvas.rect(*self._points(_MARGIN, bottom), *self._points(wide, high))
        used, margin = listed.layout.sheets[index], listed.layout.choice.margin_mm * scale
        canvas.setLineWidth(0.3)
        canvas.setDash(2, 2)
        inner = (used.usable_width_mm * scale, used.usable_height_mm * scale)
        canvas.rect(*self._points(_MARGIN + margin, bottom + margin), *self._points(*inner))
        canvas.setDash()
        canvas.setFillGray(0.82)
        for placed in listed.layout.on_sheet(index):
            area = _area(listed, placed)
            self._fill(area, scale, bottom)
        for placed in listed.layout.on_sheet(index):
            at = _area(listed, placed).representative_point()
            self._number(placed.section, _MARGIN + at.x * scale, bottom + at.y * scale)
        canvas.restoreState()

    def _number(self, number: int, x: float, y: float) -> None:
        """A section's number, white round it so that it can be read on any line."""
        self.canvas.setFont(font.name(bold=True), _SMALL)
        at, below = self._points(x, y)
        half = self.canvas.stringWidth(str(number), font.name(bold=True), _SMALL) / 2
        self.canvas.setFillGray(1.0)
        self.canvas.circle(at, below, max(half, _SMALL / 2) + 1.0, stroke=0, fill=1)
        self.canvas.setFillGray(0.0)
        self.canvas.drawCentredString(at, below - _SMALL / 3, str(number))

    def _fill(self, area: Polygon, scale: float, bottom: float) -> None:
        path = self.canvas.beginPath()
        shown = area.boundary.simplify(_NO_PEN / scale)
        for ring in shapely.get_parts(shown):
            points = shapely.get_coordinates(ring)[:-1] * scale + (_MARGIN, bottom)
            first, *others = (points / _POINT_MM).tolist()
            path.moveTo(*first)
            for point in others:
                path.lineTo(*point)
            path.close()
        self.canvas.drawPath(path, stroke=1, fill=1, fillMode=0)

    def _table(self, parts: Sequence[PartFigures], left: float, wide: float) -> None:
        self._row(_HEADS, left, wide, bold=True)
        for part in parts:
            if self.y < _MARGIN + 2 * _LINE:
                self._new_page()
                self._row(_HEADS, left, wide, bold=True)
            self._row(self._cells(part), left, wide)

    def _cells(self, part: PartFigures) -> tuple[str, ...]:
        wide, high = (format_length(side, self.unit) for side in (part.width_mm, part.height_mm))
        drilled = f"+{part.holes_drilled}" if part.holes_drilled else ""
        return (
            part.label,
            f"{wide.rsplit(' ', 1)[0]} x {high}",
            format_mass(part.mass_kg, self.unit),
            str(part.contours),
            format_way(part.cut_mm, self.unit),
            f"{part.holes_cut}{drilled}",
            format_length(part.weld_mm, self.unit) if part.weld_mm else "-",
        )

    def _row(self, cells: Sequence[str], left: float, wide: float, *, bold: bool = False) -> None:
        self.y -= _LINE
        self.canvas.setFont(font.name(bold), _SMALL)
        for cell, end in zip(cells, _ENDS, strict=True):
            self.canvas.drawRightString(*self._points(left + end * wide, self.y + 1.0), cell)

    def _paragraph(self, text: str, size: float, *, bold: bool = False) -> None:
        line = size * 1.25 * _POINT_MM
        for part in font.wrapped(text, size, self._wide, bold):
            if self.y - line < _MARGIN:
                self._new_page()
            self.y -= line
            self.canvas.setFont(font.name(bold), size)
            self.canvas.drawString(*self._points(_MARGIN, self.y), part)
        self.y -= line / 4

    @property
    def _wide(self) -> float:
        """Room for text between the margins, in points."""
        return (self.width - 2 * _MARGIN) / _POINT_MM

    def _room_for(self, high: float) -> None:
        if self.y - high < _MARGIN:
            self._new_page()

    def _new_page(self) -> None:
        self._foot()
        self.canvas.showPage()
        self.page += 1
        self.y = self.height - _MARGIN

    def _foot(self) -> None:
        self.canvas.setFont(font.name(), 6.0)
        self.canvas.drawString(*self._points(_MARGIN, _MARGIN / 2), caution.SHORT)
        at = self._points(self.width - _MARGIN, _MARGIN / 2)
        self.canvas.drawRightString(*at, f"page {self.page}")

    def _points(self, x: float, y: float) -> tuple[float, float]:
        return x / _POINT_MM, y / _POINT_MM


def _area(listed: CutList, placed: Placed) -> Polygon:
    return placed.of(listed.layout.section(placed.section).polygon)
