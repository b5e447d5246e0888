"""Packing: where on one sheet the next blank goes, found for all places of a grid at once.

The places at which two sets of cells overlap are their correlation, which a Fourier transform
gives for all of them together; blanks may lie in each other's bays at any allowed angle. A cell is
marked if an area so much as touches it, so that what the grid calls free is free; a blank is then
pushed left and down until it is as far from its neighbours as asked for. The same blanks always
end in the same places.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

import numpy as np
import scipy.fft
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from holeplacer.cutting import raster
from holeplacer.cutting.blank import EXACT_MM, Blank, Place
from holeplacer.geometry.curve import Points

Gather = Literal["left", "corner", "straight"]
"""Along the left edge; in the lower left corner; there, and lying straight rather than aslant."""

_STRAIGHT = 1.0
"""What the side of a square as large as a blank's rectangle counts against its place."""

_PAD = 3
_HALVINGS = 7
_PUSHES = ((-1.0, 0.0), (0.0, -1.0), (-1.0, 0.0))


@dataclass(eq=False)
class Bed:
    """The usable rectangle of one sheet while it fills; its lower left corner is at 0, 0.

    Attributes:
        width_mm, height_mm: Of the rectangle.
        apart_mm: Least distance between two blanks.
        cell_mm: Edge of the grid's cells.
        gather: Where blanks gather.
        lying: Areas that lie there already.
    """

    width_mm: float
    height_mm: float
    apart_mm: float
    cell_mm: float
    gather: Gather = "left"
    lying: list[Polygon] = field(default_factory=list)

    def __post_init__(self) -> None:
        """Lay out the empty grid."""
        self._rows = scipy.fft.next_fast_len(self._cells(self.height_mm), real=True)
        self._columns = scipy.fft.next_fast_len(self._cells(self.width_mm), real=True)
        self._taken = np.zeros((self._rows, self._columns), bool)
        self._spectrum: NDArray[np.complex128] | None = None
        self._wide: list[Polygon] = []

    @property
    def right_mm(self) -> float:
        """How far to the right anything lies."""
        return max((area.bounds[2] for area in self.lying), default=0.0)

    def place_for(self, blank: Blank, look: Callable[[], None]) -> Place | None:
        """The place that leaves most of the sheet in one stretch, or None if there is none.

        That is where the blank's right end lies furthest left, of equal ones the lowest; or where
        its upper right corner comes nearest to the sheet's lower left one, along the edges; or
        where it does so and its rectangle is small, so that it lies straight, too.

        Args:
            blank: What is to be laid.
            look: Called before every angle; raises to stop the work.
        """
        best: tuple[tuple[float, float, float], Place] | None = None
        for least, angle in sorted((self._reach(blank, angle), angle) for angle in blank.angles):
            look()
            left, bottom, width, height = blank.size_at(angle)
            if width > self.width_mm + EXACT_MM or height > self.height_mm + EXACT_MM:
                continue
            if best is not None and round(least, 6) > best[0][0]:
                break  # no angle from here on comes as near, wherever it finds room
            corner = self._lowest_left(blank, angle, width, height)
            if corner is None:
                continue
            reach = self._reach(blank, angle, corner)
            key = (round(reach, 6), round(corner[1] + height, 6), angle)
            if best is None or key < best[0]:
                best = key, Place(corner[0] - left, corner[1] - bottom, angle)
        return None if best is None else best[1]

    def _reach(self, blank: Blank, angle: float, corner: tuple[float, float] = (0.0, 0.0)) -> float:
        """What counts against a blank whose rectangle's lower left corner lies there."""
        _, _, width, height = blank.size_at(angle)
        if self.gather == "left":
            return corner[0] + width
        reach = corner[0] + width + corner[1] + height
        if self.gather == "straight":
            reach += _STRAIGHT * math.sqrt(width * height)
        return reach

    def lay(self, blank: Blank, place: Place) -> Place | None:
        """Lay a blank there, pushed left and down; None and nothing laid if it isn't free."""
        place = self._pushed(blank, place)
        area, wide = place.of(blank.area), place.of(blank.wide)
        if not self._holds(area) or any(near(area, other, self.apart_mm) for other in self.lying):
            return None
        self._take(area, wide)
        return place

    def hold(self, blank: Blank, place: Place) -> None:
        """Keep a blank that lies there already, whatever it comes too close to."""
        self._take(place.of(blank.area), place.of(blank.wide))

    def holds(self, blank: Blank, place: Place) -> bool:
        """Whether a blank that lies there is within the rectangle."""
        return self._holds(place.of(blank.area))

    def _take(self, area: Polygon, wide: Polygon) -> None:
        shapely.prepare(wide)
        self.lying.append(area)
        self._wide.append(wide)
        ring = raster.reach_of(area, self.cell_mm, self.apart_mm) + _PAD * self.cell_mm
        self._taken |= raster.cells_within(ring, self.cell_mm, self._rows, self._columns)
        self._spectrum = None

    def _cells(self, length_mm: float) -> int:
        return math.ceil(length_mm / self.cell_mm) + 2 * _PAD + 1

    def _holds(self, area: Polygon) -> bool:
        return self._within(*area.bounds)

    def _within(self, left: float, bottom: float, right: float, top: float) -> bool:
        return bool(
            min(left, bottom) >= -EXACT_MM
            and right <= self.width_mm + EXACT_MM
            and top <= self.height_mm + EXACT_MM
        )

    def _lowest_left(
        self, blank: Blank, angle: float, width: float, height: float
    ) -> tuple[float, float] | None:
        """Lower left corner of the blank's rectangle, furthest left, then lowest."""
        if not self.lying:
            return 0.0, 0.0
        columns = int((self.width_mm - width + EXACT_MM) / self.cell_mm) + 1
        rows = int((self.height_mm - height + EXACT_MM) / self.cell_mm) + 1
        shape = _spectrum_of(blank, angle, self.cell_mm, self._rows, self._columns)
        if self._spectrum is None:
            self._spectrum = scipy.fft.rfft2(self._taken.astype(float))
        overlap = scipy.fft.irfft2(self._spectrum * shape, s=(self._rows, self._columns))
        free = overlap[:rows, :columns] < 0.5
        hit = free.any(axis=0)
        if not hit.any():
            return None
        column = int(np.argmax(hit))
        return column * self.cell_mm, int(np.argmax(free[:, column])) * self.cell_mm

    def _pushed(self, blank: Blank, place: Place) -> Place:
        """The place as far left, down, and left again as two cells and the neighbours allow."""
        left, bottom, width, height = blank.size_at(place.angle_rad)
        outline = Place(0.0, 0.0, place.angle_rad).of(blank.wide)
        size = left, bottom, left + width, bottom + height
        for step_x, step_y in _PUSHES:
            push = 2.0 * self.cell_mm
            for _ in range(_HALVINGS):
                moved = Place(
                    place.x_mm + push * step_x, place.y_mm + push * step_y, place.angle_rad
                )
                if self._is_free(outline, size, moved):
                    place = moved
                else:
                    push /= 2
        return place

    def _is_free(
        self, turned: Polygon, size: tuple[float, float, float, float], place: Place
    ) -> bool:
        """Whether an area that is turned already, of that rectangle, may be moved there."""
        x, y = place.x_mm, place.y_mm
        if not self._within(size[0] + x, size[1] + y, size[2] + x, size[3] + y):
            return False
        wide = shapely.transform(turned, lambda xy: xy + np.array([x, y]))
        return not any(near(other, wide, self.apart_mm) for other in self._wide)


def near(one: Polygon, other: Polygon, apart_mm: float) -> bool:
    """Whether two areas overlap or come closer than they should."""
    if apart_mm > 0:
        return bool(shapely.dwithin(one, other, apart_mm - EXACT_MM))
    return bool(shapely.relate_pattern(one, other, "T********"))


def pack(bed: Bed, blanks: Iterable[Blank], look: Callable[[], None]) -> dict[int, Place]:
    """Lay blank after blank on a bed as long as there is room; those left over are skipped."""
    laid = {}
    for blank in blanks:
        place = bed.place_for(blank, look)
        settled = None if place is None else bed.lay(blank, place)
        if settled is not None:
            laid[blank.number] = settled
    return laid


def orders(blanks: Sequence[Blank], count: int) -> tuple[tuple[Blank, ...], ...]:
    """Different orders worth trying, at most so many.

    By smallest rectangle, length, breadth and area, then by area with some put forward or back by
    up to a half, always the same ones.
    """
    flat = {blank.number: blank.flat_size for blank in blanks}
    by_rectangle = sorted(blanks, key=lambda blank: -flat[blank.number][0] * flat[blank.number][1])
    tried = [
        by_rectangle,
        sorted(blanks, key=lambda blank: -flat[blank.number][0]),
        sorted(blanks, key=lambda blank: -flat[blank.number][1]),
        sorted(blanks, key=lambda blank: -blank.area.area),
    ]
    random = np.random.default_rng(len(blanks))
    areas = np.array([blank.area.area for blank in by_rectangle])
    while len(tried) < count:
        shifted = areas * random.uniform(0.5, 1.5, len(areas))
        tried.append([by_rectangle[index] for index in np.argsort(-shifted, kind="stable")])
    unique = {tuple(blank.number for blank in order): tuple(order) for order in tried[:count]}
    return tuple(unique.values())


@lru_cache(maxsize=1024)
def _spectrum_of(
    blank: Blank, angle: float, cell_mm: float, rows: int, columns: int
) -> NDArray[np.complex128]:
    """Conjugate transform of the cells a blank touches, its rectangle's corner at the pad."""
    left, bottom, _, _ = blank.size_at(angle)
    ring = raster.turned(_reach_of(blank, cell_mm), angle) - (left, bottom) + _PAD * cell_mm
    cells = raster.cells_within(ring, cell_mm, rows, columns)
    spectrum: NDArray[np.complex128] = np.conj(scipy.fft.rfft2(cells.astype(float)))
    return spectrum


@lru_cache(maxsize=512)
def _reach_of(blank: Blank, cell_mm: float) -> Points:
    return raster.reach_of(blank.area, cell_mm)
