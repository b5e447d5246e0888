"""A view onto the sign in mm, y up: zoom at the pointer, pan, fit, rulers, grid."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import QPainter, QPixmapCache, QResizeEvent, QTransform, QWheelEvent
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView, QWidget

from holeplacer.gui.canvas.grid import paint_grid
from holeplacer.gui.canvas.rulers import THICKNESS_PX, Ruler, RulerCorner
from holeplacer.gui.theme import Theme
from holeplacer.units import LengthUnit

ZOOM_STEP = 1.25
_WHEEL_NOTCH = 120.0
_CLOSEST_PX_PER_MM = 200.0
_FURTHEST_SHARE = 0.1
_CACHE_KB = 131072
_FIT_MARGIN_PX = 28


class ZoomView(QGraphicsView):
    """Shows a scene whose coordinates are the sign's.

    Attributes:
        scale_changed: So many pixels a millimetre from now on.
        resized: The view has another size.
    """

    scale_changed = Signal(float)
    resized = Signal()

    def __init__(self, scene: QGraphicsScene, theme: Theme, parent: QWidget | None = None) -> None:
        super().__init__(scene, parent)
        # One cached picture of a large window at double resolution exceeds Qt's usual 10 MB and
        # would silently be thrown away at each frame.
        QPixmapCache.setCacheLimit(max(QPixmapCache.cacheLimit(), _CACHE_KB))
        self._theme = theme
        self._unit = LengthUnit.MM
        self._grid = True
        self._bounds = QRectF(0, 0, 1000, 500)
        self._fitted = True
        self._anchor: tuple[QPoint, QPointF] | None = None
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setViewportUpdateMode(QGraphicsView.ViewportUpdateMode.MinimalViewportUpdate)
        self.setOptimizationFlag(
            QGraphicsView.OptimizationFlag.DontSavePainterState  # every item sets what it uses
        )
        self.setCacheMode(QGraphicsView.CacheModeFlag.CacheBackground)
        self.setViewportMargins(THICKNESS_PX, THICKNESS_PX, 0, 0)
        self._level = Ruler(Qt.Orientation.Horizontal, theme.colours, self)
        self._upright = Ruler(Qt.Orientation.Vertical, theme.colours, self)
        self._corner = RulerCorner(theme.colours, self)
        theme.changed.connect(self._wear)
        self.show_bounds(self._bounds)

    # --- what is shown ---

    @property
    def px_per_mm(self) -> float:
        """Scale."""
        return self.transform().m11()

    @property
    def rulers(self) -> tuple[Ruler, Ruler]:
        """The level and the upright one."""
        return self._level, self._upright

    def show_bounds(self, bounds: QRectF) -> None:
        """The sign fills this rectangle, mm; one can pan well past it.

        A chosen part stays in sight, unless nothing of the sign would be there any more.
        """
        self._bounds = bounds
        room = 3 * max(bounds.width(), bounds.height())
        self.setSceneRect(bounds.adjusted(-room, -room, room, room))
        if not self._fitted and not bounds.intersects(self.in_sight):
            self.fit()
        self.settle()

    @property
    def in_sight(self) -> QRectF:
        """What the view shows, mm."""
        port = self.viewport().rect()
        return QRectF(self.to_sign(port.bottomLeft()), self.to_sign(port.topRight()))

    def show_unit(self, unit: LengthUnit) -> None:
        """Rulers and grid in another unit."""
        self._unit = unit
        self._corner.show_unit(unit)
        self._update_rulers()
        self.resetCachedContent()
        self.viewport().update()

    @property
    def grid(self) -> bool:
        """Whether the grid is seen."""
        return self._grid

    def set_grid(self, seen: bool) -> None:
        """Show or hide the grid."""
        self._grid = seen
        self.resetCachedContent()
        self.viewport().update()

    # --- zoom, pan, fit ---

    def zoom_by(self, factor: float, at: QPoint | None = None) -> None:
        """Zoom; the place under this pixel (None: the middle) stays under it."""
        at = self.viewport().rect().center() if at is None else at
        if self._anchor is None or self._anchor[0] != at:
            self._anchor = (at, self.to_sign(at))
        place = self._anchor[1]
        scale = self.px_per_mm * factor
        self._set_scale(min(max(scale, self._fit_scale * _FURTHEST_SHARE), _CLOSEST_PX_PER_MM))
        self._fitted = False
        self._scroll(self.viewportTransform().map(place).toPoint() - at)

    def zoom_in(self) -> None:
        """One step closer."""
        self.zoom_by(ZOOM_STEP)

    def zoom_out(self) -> None:
        """One step away."""
        self.zoom_by(1 / ZOOM_STEP)

    def fit(self) -> None:
        """All of the sign, and keep it so while the window changes its size."""
        self.fit_rect(self._bounds)
        self._fitted = True

    def settle(self) -> None:
        """Fit again, unless the person has chosen a part."""
        if self._fitted:
            self.fit()
        else:
            self._update_rulers()

    def fit_rect(self, rect: QRectF, *, closest_px_per_mm: float = _CLOSEST_PX_PER_MM) -> None:
        """Show a rectangle, mm, as large as it fits."""
        self._anchor = None
        self._fitted = False
        self._set_scale(min(self._scale_for(rect), closest_px_per_mm))
        self.centerOn(rect.center())
        self._update_rulers()

    def pan(self, moved: QPoint) -> None:
        """Carry the sign along by so many pixels."""
        self._anchor = None
        self._fitted = False
        self._scroll(-moved)

    def bring_into_view(self, x_mm: float, y_mm: float) -> None:
        """Pan so far that a place is well inside; not at all where it is."""
        margin = min(60, self.viewport().width() // 4, self.viewport().height() // 4)
        inside = self.viewport().rect().adjusted(margin, margin, -margin, -margin)
        if not inside.contains(self.mapFromScene(x_mm, y_mm)):
            self._anchor = None
            self._fitted = False
            self.centerOn(x_mm, y_mm)

    def to_sign(self, at: QPoint) -> QPointF:
        """Place on the sign under a pixel."""
        inverse, _ = self.viewportTransform().inverted()
        return inverse.map(QPointF(at))

    def _scroll(self, by: QPoint) -> None:
        across, along = self.horizontalScrollBar(), self.verticalScrollBar()
        across.setValue(across.value() + by.x())
        along.setValue(along.value() + by.y())
        self._update_rulers()

    def _set_scale(self, px_per_mm: float) -> None:
        if px_per_mm != self.px_per_mm or self.transform().m22() != -px_per_mm:
            self.setTransform(QTransform.fromScale(px_per_mm, -px_per_mm))
            self.scale_changed.emit(px_per_mm)

    @property
    def _fit_scale(self) -> float:
        return self._scale_for(self._bounds)

    def _scale_for(self, rect: QRectF) -> float:
        room = self.viewport().rect()
        width = max(room.width() - 2 * _FIT_MARGIN_PX, 40)
        height = max(room.height() - 2 * _FIT_MARGIN_PX, 40)
        return min(width / max(rect.width(), 1e-6), height / max(rect.height(), 1e-6))

    # --- Qt ---

    def wheelEvent(self, event: QWheelEvent) -> None:
        turned = event.angleDelta().y() or event.angleDelta().x()
        if turned:
            self.zoom_by(ZOOM_STEP ** (turned / _WHEEL_NOTCH), event.position().toPoint())
        event.accept()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        port = self.viewport().geometry()
        self._level.setGeometry(port.left(), port.top() - THICKNESS_PX, port.width(), THICKNESS_PX)
        self._upright.setGeometry(
            QRect(port.left() - THICKNESS_PX, port.top(), THICKNESS_PX, port.height())
        )
        self._corner.setGeometry(
            port.left() - THICKNESS_PX, port.top() - THICKNESS_PX, THICKNESS_PX, THICKNESS_PX
        )
        self.settle()
        self.resized.emit()

    def scrollContentsBy(self, dx: int, dy: int) -> None:
        super().scrollContentsBy(dx, dy)
        self._update_rulers()

    def drawBackground(self, painter: QPainter, rect: QRectF | QRect) -> None:
        painter.fillRect(rect, self._theme.colours.colour("ground"))
        if self._grid:
            exposed = QRectF(rect)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
            paint_grid(painter, exposed, self.px_per_mm, self._unit, self._theme.colours)

    def _update_rulers(self) -> None:
        zero = self.viewportTransform().map(QPointF(0, 0))
        self._level.show_range(zero.x(), self.px_per_mm, self._unit)
        self._upright.show_range(zero.y(), -self.px_per_mm, self._unit)

    def _wear(self) -> None:
        for part in (self._level, self._upright, self._corner):
            part.wear_colours(self._theme.colours)
        self.resetCachedContent()
        self.viewport().update()
