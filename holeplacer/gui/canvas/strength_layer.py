"""Strength layer: colours, deflected shape, arrows and legend on the canvas, while they are asked.

Nothing is made before the first result is drawn, and only what changed is touched after that.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint, QPointF, QRect, QTimer
from PySide6.QtGui import QFont

from holeplacer.gui.canvas.strength_legend import LegendContent, StrengthLegend
from holeplacer.gui.canvas.view import CanvasView
from holeplacer.gui.session import Session
from holeplacer.gui.strength_shown import Colouring, StrengthShown, round_up
from holeplacer.gui.theme import Theme, with_even_figures

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from holeplacer.gui.canvas.deflected_item import DeflectedItem
    from holeplacer.gui.canvas.reaction_item import ReactionItem
    from holeplacer.gui.canvas.strength_item import StrengthItem
    from holeplacer.gui.canvas.stroke_bands import StrokeBands
    from holeplacer.rules.load_effects import InPlaneCase
    from holeplacer.rules.strength import Strength
    from holeplacer.structure.response import Response

Force = tuple[float, float]
"""Newtons, positive pulling; degrees clockwise from upwards for one in the sheet's plane."""

_LEAST_SHARE = 0.005
"""Of the longest arrow, below which there is none."""
_STROKES_Z, _SHAPE_Z, _ARROWS_Z = -9.5, -6.0, 6.0
_OFFSET_SHARE = 0.03
"""Of the sign's diagonal, how far the upper end of the deflection scale is drawn off."""
_CORNER_PX = 12
_TICKS = 5


class StrengthLayer(QObject):
    """Keeps the items in step with what is to be shown.

    Attributes:
        legend: Stands over the canvas's lower left corner.
        arrows: Items by hole number.
    """

    def __init__(self, session: Session, canvas: CanvasView, theme: Theme) -> None:
        super().__init__(canvas)
        self._session, self._canvas, self._theme = session, canvas, theme
        self._shown = StrengthShown.of(session)
        self._items: tuple[StrengthItem, DeflectedItem] | None = None
        self._bands: tuple[object, StrokeBands] | None = None
        self._explained: object = None
        self.arrows: dict[int, ReactionItem] = {}
        self.legend = StrengthLegend(theme, canvas)
        self._font = with_even_figures(QFont())
        self._settle = QTimer(self)  # a view zooms first and scrolls then
        self._settle.setSingleShot(True)
        self._settle.setInterval(0)
        self._settle.timeout.connect(self._place_legend)
        self._shown.changed.connect(self.refresh)
        session.layout_changed.connect(self.refresh)
        session.plan_changed.connect(self._follow_holes)
        session.unit_changed.connect(self.refresh)
        session.evaluation_changed.connect(self._gone)
        theme.changed.connect(self._wear)
        canvas.scale_changed.connect(self._rescaled)
        canvas.resized.connect(self._settle.start)

    @property
    def strokes(self) -> StrengthItem | None:
        """The coloured strokes; None before they were first drawn."""
        return None if self._items is None else self._items[0]

    @property
    def shape(self) -> DeflectedItem | None:
        """The deflected shape; None before it was first drawn."""
        return None if self._items is None else self._items[1]

    def refresh(self) -> None:
        """Draw what is to be shown now."""
        found, response = self._shown.drawn, self._shown.response
        if found is None or response is None:
            self._hide()
            return
        in_plane = self._shown.in_plane
        if in_plane is None:
            bands = self._bands_of(found)
            self._show_strokes(bands, response)
            self._show_shape(bands, response)
        else:
            for item in self._items or ():
                item.setVisible(False)
        self._show_arrows(_forces(response, in_plane))
        self._explain(response, in_plane)

    # --- parts ---

    def _gone(self) -> None:
        """Without a result nothing stays on the canvas."""
        if self._shown.drawn is None:
            self._hide()

    def _hide(self) -> None:
        self.legend.hide()
        for item in self._items or ():
            item.setVisible(False)
        self._drop_arrows(set())

    def _bands_of(self, found: Strength) -> StrokeBands:
        from holeplacer.gui.canvas.stroke_bands import StrokeBands  # with the first result

        grillage = found.effects.grillage
        if self._bands is None or self._bands[0] is not grillage.ways:
            self._bands = grillage.ways, StrokeBands(grillage.axis, grillage.ways)
        return self._bands[1]

    def _made(self) -> tuple[StrengthItem, DeflectedItem]:
        if self._items is None:
            from holeplacer.gui.canvas.deflected_item import DeflectedItem
            from holeplacer.gui.canvas.strength_item import StrengthItem

            self._items = StrengthItem(), DeflectedItem()
            for item, z in zip(self._items, (_STROKES_Z, _SHAPE_Z), strict=True):
                item.setZValue(z)
                self._canvas.sign.addItem(item)
            self._wear()
        return self._items

    def _show_strokes(self, bands: StrokeBands, response: Response) -> None:
        strokes, _shape = self._made()
        colouring = self._shown.colouring
        if colouring is Colouring.NOTHING:
            strokes.setVisible(False)
            return
        figures = abs(bands.figures(_values(response, colouring)))
        strokes.show_figures(bands, figures, self._shown.top(colouring.value))

    def _show_shape(self, bands: StrokeBands, response: Response) -> None:
        _strokes, shape = self._made()
        if not self._shown.deflected:
            shape.setVisible(False)
            return
        moved = bands.figures(response.deflection_mm)
        shape.show_shape(bands, moved, self.factor, self._canvas.px_per_mm)

    @property
    def factor(self) -> float:
        """What the deflected shape is multiplied by: a round figure."""
        layout = self._session.layout
        if layout is None:
            return 1.0
        left, bottom, right, top = layout.outline.bounds_mm
        diagonal = ((right - left) ** 2 + (top - bottom) ** 2) ** 0.5
        return round_up(_OFFSET_SHARE * diagonal / self._shown.top("deflection"))

    def _show_arrows(self, felt: tuple[Force, ...]) -> None:
        plan = self._session.plan
        if plan is None or not self._shown.reactions:
            self._drop_arrows(set())
            return
        from holeplacer.loads.force import format_force

        held = tuple(zip(plan.holes, felt, strict=False))
        self._drop_arrows({hole.number for hole, _force in held})
        top, unit = self._shown.top(self._scale_of_arrows), self._session.unit
        for hole, (force, turned_deg) in held:
            item = self.arrows.get(hole.number) or self._add_arrow(hole.number)
            item.setPos(hole.x_mm, hole.y_mm)
            item.setVisible(abs(force) > _LEAST_SHARE * top)
            item.show_force(force, format_force(abs(force), unit), top, turned_deg=turned_deg)
        if plan is self._session.committed:
            self._declutter()

    @property
    def _scale_of_arrows(self) -> str:
        return "reaction" if self._shown.in_plane is None else "shear"

    def _add_arrow(self, number: int) -> ReactionItem:
        from holeplacer.gui.canvas.reaction_item import ReactionItem

        item = ReactionItem(self._theme.colours, self._font)
        item.setZValue(_ARROWS_Z)
        self._canvas.sign.addItem(item)
        self.arrows[number] = item
        return item

    def _drop_arrows(self, kept: set[int]) -> None:
        for number in set(self.arrows) - kept:
            self._canvas.sign.removeItem(self.arrows.pop(number))

    def _follow_holes(self) -> None:
        """Holes may move before their forces are known; arrows stay at their holes."""
        plan = self._session.plan
        for hole in () if plan is None else plan.holes:
            if hole.number in self.arrows:
                self.arrows[hole.number].setPos(hole.x_mm, hole.y_mm)

    def _rescaled(self) -> None:
        if self.legend.isVisible():
            self._declutter()
            self._settle.start()

    def _declutter(self) -> None:
        """Leave out figures that would cover others, the greater forces first."""
        scale = self._canvas.px_per_mm
        taken = [
            item.number_px.translated(item.x() * scale, -item.y() * scale)
            for item in self._canvas.sign.holes.values()
        ]
        for item in sorted(self.arrows.values(), key=lambda item: -abs(item.force_n)):
            box = item.number_box.translated(QPointF(item.x() * scale, -item.y() * scale))
            clear = item.isVisible() and not any(box.intersects(other) for other in taken)
            item.show_number(clear)
            if clear:
                taken.append(box)

    # --- legend ---

    def _explain(self, response: Response, in_plane: InPlaneCase | None) -> None:
        from holeplacer.loads.force import format_force

        shown, unit = self._shown, self._session.unit
        colouring = shown.colouring if in_plane is None else Colouring.NOTHING
        case = response.name if in_plane is None else in_plane.name
        tops = tuple(map(shown.top, ("deflection", "stress", "reaction", "shear")))
        key = (case, unit, colouring, shown.reactions, shown.deflected, tops, self.factor)
        if key == self._explained and self.legend.isVisible():
            return
        self._explained = key
        ticks: tuple[str, ...] = ()
        of = ""
        if colouring is not Colouring.NOTHING:
            ticks, of = _ticks(colouring, shown.top(colouring.value), unit)
        drawn = "reactions" if colouring is Colouring.NOTHING else colouring.value
        self.legend.show_content(
            LegendContent(
                title=f"{drawn[:1].upper()}{drawn[1:]}, {case}",
                ticks=ticks,
                unit=of,
                longest=format_force(shown.top(self._scale_of_arrows), unit)
                if shown.reactions
                else "",
                in_plane=in_plane is not None,
                factor=f"deflected × {self.factor:g}; off the wall: right, down"
                if shown.deflected and in_plane is None
                else "",
            )
        )
        self.legend.show()
        self._place_legend()

    def _place_legend(self) -> None:
        """Into the corner where it covers least of the strokes; the lower left if all are alike."""
        port, size = self._canvas.viewport().geometry(), self.legend.size()
        inner = port.adjusted(_CORNER_PX, _CORNER_PX, -_CORNER_PX, -_CORNER_PX)
        right, low = inner.right() - size.width(), inner.bottom() - size.height()
        corners = [QPoint(x, y) for y in (low, inner.top()) for x in (inner.left(), right)]
        self.legend.move(min(corners, key=lambda corner: self._covered(QRect(corner, size))))

    def _covered(self, rect: QRect) -> int:
        """How many points of the strokes lie under a part of the canvas."""
        if self._bands is None:
            return 0
        seen = rect.translated(-self._canvas.viewport().pos())
        low, high = self._canvas.to_sign(seen.bottomLeft()), self._canvas.to_sign(seen.topRight())
        xy = self._bands[1].xy
        across = (xy[:, 0] > low.x()) & (xy[:, 0] < high.x())
        up = (xy[:, 1] > low.y()) & (xy[:, 1] < high.y())
        return int((across & up).sum())

    def _wear(self) -> None:
        if self._items is not None:
            strokes, shape = self._items
            strokes.wear_scale(dark=self._theme.dark)
            shape.wear_colours(self._theme.colours)
        for arrow in self.arrows.values():
            arrow.wear_colours(self._theme.colours)


def _forces(response: Response, in_plane: InPlaneCase | None) -> tuple[Force, ...]:
    """Force on every standoff, and its direction where it has one in the sheet's plane."""
    if in_plane is None:
        return tuple((force, 0.0) for force in response.reactions_n)
    return tuple(
        (math.hypot(x, y), math.degrees(math.atan2(x, y)))
        for x, y in in_plane.result.forces_n.tolist()
    )


def _values(response: Response, colouring: Colouring) -> tuple[NDArray[np.float64], ...]:
    return response.stress_mpa if colouring is Colouring.STRESS else response.deflection_mm


def _ticks(colouring: Colouring, top: float, unit: object) -> tuple[tuple[str, ...], str]:
    """Figures along a scale, and their unit."""
    from holeplacer.gui.strength_words import format_stress
    from holeplacer.loads.quantity import decimals
    from holeplacer.units import MM_PER_INCH, LengthUnit

    shares = [index / (_TICKS - 1) for index in range(_TICKS)]
    if colouring is Colouring.STRESS:
        said = [format_stress(top * share, LengthUnit(unit)).split(" ") for share in shares]
        return tuple(number for number, _unit in said), said[-1][1]
    inches = unit is LengthUnit.INCH
    size = MM_PER_INCH if inches else 1.0
    return tuple(decimals(top * share / size, 3) for share in shares), "in" if inches else "mm"
