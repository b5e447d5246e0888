"""Pierce: where the torch enters the sheet, in the drop, clear of all metal that stays.

The drop of a hole or counter is what lies within it; that of an outer contour is the sheet around
the part. What has been cut out already is no place to pierce: there is no metal to enter.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from holeplacer.cutting.contours import Contour, Kind, Part
from holeplacer.geometry.curve import Points


@dataclass(frozen=True, eq=False)
class Ground:
    """What a sheet is made of at the moment a contour is cut.

    Attributes:
        stays: All metal that stays, prepared.
        drop: Where the torch may enter and travel for this contour, prepared.
        clearance_mm: Least distance of a pierce's centre from what stays.
        half_kerf_mm: Half the width of the cut.
    """

    stays: shapely.Geometry
    drop: shapely.Geometry
    clearance_mm: float
    half_kerf_mm: float

    def pierce_fits(self, xy: Points) -> NDArray[np.bool_]:
        """Whether one may pierce at each of (n, 2) points."""
        points = shapely.points(xy)
        near = shapely.dwithin(self.stays, points, self.clearance_mm * (1 - 1e-9))
        return np.asarray(~near & shapely.contains(self.drop, points), dtype=np.bool_)

    def way_is_clear(self, ways: NDArray[np.object_]) -> NDArray[np.bool_]:
        """Whether a cut along each line leaves what stays whole, and runs in metal all along."""
        near = shapely.dwithin(self.stays, ways, max(self.half_kerf_mm - 1e-3, 0.0))
        return np.asarray(~near & shapely.covers(self.drop, ways), dtype=np.bool_)


def metal_of(parts: Sequence[Part]) -> shapely.Geometry:
    """All metal that stays, as one prepared geometry."""
    metal = shapely.union_all([part.polygon for part in parts])
    shapely.prepare(metal)
    return metal


def drop_of(
    contour: Contour, parts: Sequence[Part], sheet: shapely.Polygon, gone: Sequence[Contour]
) -> shapely.Geometry:
    """Where the torch may enter and travel for a contour.

    Args:
        contour: Nominal.
        parts: All parts on the sheet.
        sheet: What of the sheet may be used.
        gone: Contours cut before; what lies within them has dropped out.
    """
    own = contour.region
    dropped = [other for other in gone if other.kind is not Kind.OUTER]
    if contour.kind is Kind.OUTER:
        within: shapely.Geometry = shapely.difference(sheet, own)
    else:
        within = own
    holes = [region.region for region in dropped if shapely.intersects(region.region, within)]
    loose = [
        shapely.Polygon(other.xy)
        for other in gone
        if other.kind is Kind.OUTER and other is not contour
    ]
    standing = [shapely.Polygon(part.polygon.exterior) for part in parts]
    taken = [*holes, *loose]
    if contour.kind is Kind.OUTER:
        # A part inside a counter of another: its drop is that counter, which is still whole.
        host = [area for area in standing if shapely.contains_properly(area, own)]
        taken += [area for area in standing if area not in host]
    ground = shapely.difference(within, shapely.union_all(taken)) if taken else within
    shapely.prepare(ground)
    return ground
