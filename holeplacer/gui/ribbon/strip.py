"""A strip that is long and low: zoomed and scrolled along, with a ruler for its height."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtGui import QPainter, QPixmap, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QAbstractScrollArea, QFrame, QWidget

from holeplacer.gui.canvas.rulers import THICKNESS_PX, Ruler
from holeplacer.gui.ribbon.legend import WIDTH_PX, Legend
from holeplacer.gui.theme import Theme, with_even_figures
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.gui.ribbon.picture import Lane
    from holeplacer.gui.ribbon.scale import Scale
    from holeplacer.gui.ribbon.trace import Trace
    from holeplacer.gui.ribbon.unrolled import Unrolled

_ZOOM_STEP = 1.25
_NOTCH = 120.0
_CLOSEST_PX_PER_MM = 20.0
_HEIGHT_PX = 140
_LEAST_HEIGHT_PX = 120
_STRONG_PX = 26.0


class StripView(QAbstractScrollArea):
    """Shows an unrolled axis with its traces; what stands still is painted once.

    Attributes:
        pictures: How often the still part was painted; a drag must not add to it.
    """

    def __init__(self, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.pictures = 0
        self._theme = theme
        self._unit = LengthUnit.MM
        self._ribbon: Unrolled | None = None
        self._scale: Scale | None = None
        self._traces: tuple[Trace, ...] = ()
        self._lanes: tuple[Lane, ...] = ()
        self._picture: QPixmap | None = None
        self._fitted = True
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setViewportMargins(WIDTH_PX + THICKNESS_PX, 0, 0, 0)
        self._legend = Legend(theme.colours, self)
        self._ruler = Ruler(Qt.Orientation.Vertical, theme.colours, self, strong_px=_STRONG_PX)
        font = with_even_figures(self.font())
        font.setPixelSize(12)
        self.viewport().setFont(font)
        theme.changed.connect(self._wear)
        self.horizontalScrollBar().valueChanged.connect(self._scrolled)

    # --- what it shows ---

    @property
    def ribbon(self) -> Unrolled | None:
        """The unrolled axis, None before there is one."""
        return self._ribbon

    @property
    def scale(self) -> Scale | None:
        """Zoom and scroll."""
        return self._scale

    def show_ribbon(self, ribbon: Unrolled | None) -> None:
        """Show another axis, or none."""
        self._ribbon = ribbon
        if ribbon is None:
            self._scale, self._lanes, self._traces = None, (), ()
            self._picture, self._fitted = None, True
            self.horizontalScrollBar().setRange(0, 0)
        elif self._scale is None:
            from holeplacer.gui.ribbon.scale import Scale  # with the first axis, not the window

            self._scale = Scale()
        self._resized()
        self.viewport().update()

    def show_traces(self, traces: tuple[Trace, ...]) -> None:
        """Draw other traces, each in a lane of its own."""
        self._traces = traces
        self._renew_lanes()

    def show_unit(self, unit: LengthUnit) -> None:
        """Figures in another unit."""
        self._unit = unit
        self._renew_lanes()

    # --- zoom, scroll, fit ---

    def fit(self) -> None:
        """The whole ribbon, and keep it so while the window changes its size."""
        self._fitted = True
        if self._scale is not None and self._ribbon is not None:
            self._set_scale(self._scale.fitted(self._ribbon))

    def zoom_by(self, factor: float, at_px: float) -> None:
        """Zoom along the strokes; the place under this pixel stays under it."""
        if self._scale is None or self._ribbon is None:
            return
        run = self._scale.run_at(self._ribbon, at_px)
        if run is None:
            return
        place = self._scale.x_mm(run, at_px)
        least = self._scale.fitted(self._ribbon).px_per_mm
        wanted = min(max(self._scale.px_per_mm * factor, least), _CLOSEST_PX_PER_MM)
        self._fitted = wanted == least
        scale = replace(self._scale, px_per_mm=wanted)
        self._set_scale(replace(scale, scroll_px=scale.scroll_px + scale.x_px(run, place) - at_px))

    def pan(self, moved: QPoint) -> None:
        """Carry the ribbon along by so many pixels."""
        bar = self.horizontalScrollBar()
        bar.setValue(bar.value() - moved.x())

    def _set_scale(self, scale: Scale) -> None:
        if self._ribbon is None:
            return
        most = round(max(scale.total_px(self._ribbon) - scale.width_px, 0.0))
        self._scale = replace(scale, scroll_px=min(max(round(scale.scroll_px), 0), most))
        bar = self.horizontalScrollBar()
        bar.setPageStep(scale.width_px)
        bar.setSingleStep(40)
        bar.setRange(0, most)
        bar.setValue(round(self._scale.scroll_px))
        self._repaint_all()

    def _scrolled(self, value: int) -> None:
        if self._scale is not None and value != self._scale.scroll_px:
            self._scale = replace(self._scale, scroll_px=float(value))
            self._repaint_all()

    def _resized(self) -> None:
        if self._scale is None or self._ribbon is None:
            return
        port = self.viewport()
        scale = replace(self._scale, width_px=port.width(), height_px=port.height())
        self._renew_lanes()
        self._set_scale(scale.fitted(self._ribbon) if self._fitted else scale)

    def _renew_lanes(self) -> None:
        if not self._traces:
            self._lanes = ()
            return
        from holeplacer.gui.ribbon.picture import lanes

        self._lanes = lanes(self._traces, self.viewport().height())
        first = self._lanes[0]
        ends = (first.top_px - 1.0, first.base_px + 1.0)
        self._ruler.show_range(first.base_px, -first.px_per_mm, self._unit, ends_px=ends)
        self._legend.show_lanes(self._lanes, self._unit)
        self._repaint_all()

    # --- painting ---

    def paint_still(self, painter: QPainter) -> bool:
        """Paint what stands still; False where there is nothing yet."""
        if self._ribbon is None or self._scale is None or not self._lanes:
            painter.fillRect(self.viewport().rect(), self._theme.colours.colour("ground"))
            return False
        if self._picture is None:
            self._picture = self._painted(self._ribbon, self._scale)
        painter.drawPixmap(0, 0, self._picture)
        return True

    def _painted(self, ribbon: Unrolled, scale: Scale) -> QPixmap:
        from holeplacer.gui.ribbon.picture import paint_picture

        self.pictures += 1
        ratio = self.viewport().devicePixelRatioF()
        picture = QPixmap(self.viewport().size() * ratio)
        picture.setDevicePixelRatio(ratio)
        picture.fill(self._theme.colours.colour("ground"))
        painter = QPainter(picture)
        painter.setFont(self.viewport().font())
        still = tuple(lane for lane in self._lanes if not lane.trace.live)
        paint_picture(painter, ribbon, scale, still, self._theme.colours)
        painter.end()
        return picture

    def _repaint_all(self) -> None:
        self._picture = None
        self.viewport().update()

    def _wear(self) -> None:
        self._ruler.wear_colours(self._theme.colours)
        self._legend.wear_colours(self._theme.colours)
        self._repaint_all()

    # --- Qt ---

    def sizeHint(self) -> QSize:
        return QSize(600, _HEIGHT_PX)

    def minimumSizeHint(self) -> QSize:
        return QSize(200, _LEAST_HEIGHT_PX)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        port = self.viewport().geometry()
        left = port.left() - THICKNESS_PX
        self._ruler.setGeometry(left, port.top(), THICKNESS_PX, port.height())
        self._legend.setGeometry(left - WIDTH_PX, port.top(), WIDTH_PX, port.height())
        self._resized()

    def wheelEvent(self, event: QWheelEvent) -> None:
        turned = event.angleDelta()
        if abs(turned.x()) > abs(turned.y()):
            self.pan(QPoint(turned.x(), 0))
        elif turned.y():
            self.zoom_by(_ZOOM_STEP ** (turned.y() / _NOTCH), event.position().x())
        event.accept()
