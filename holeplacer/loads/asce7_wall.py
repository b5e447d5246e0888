"""Wall coefficients of ASCE 7: external pressure (GCp) by zone, direction and effective area.

Figure 30.3-1, walls of buildings up to 60 ft: zone 4 is the wall's field, zone 5 the strips along
its corners. Magnitudes are positive here: `out` pulls off the wall, `in` presses on to it.
"""

import math
from dataclasses import dataclass
from functools import cache
from typing import Literal

from holeplacer import resources
from holeplacer.loads import step
from holeplacer.loads.asce7_velocity import roof_height_mm
from holeplacer.loads.constant import constant
from holeplacer.loads.loading import Asce7Site
from holeplacer.loads.step import Step

Direction = Literal["out", "in"]
Zone = Literal["4", "5"]

_MM2_PER_FT2 = 304.8**2
_NAMES = {"4": "field of the wall", "5": "corner strip"}
_WAYS = {"out": "off the wall", "in": "on to the wall"}


@dataclass(frozen=True)
class _Line:
    gcp_small: float
    small_ft2: float
    gcp_large: float
    large_ft2: float
    source: str
    status: str


def gcp(zone: Zone, direction: Direction, area_mm2: float) -> float:
    """Magnitude of GCp: linear in the logarithm of the area, constant beyond the figure's ends.

    >>> round(gcp("5", "out", 50 * 304.8**2), 3)
    1.153
    """
    line = _lines()[zone, direction]
    area_ft2 = min(max(area_mm2 / _MM2_PER_FT2, line.small_ft2), line.large_ft2)
    along = math.log(area_ft2 / line.small_ft2) / math.log(line.large_ft2 / line.small_ft2)
    return line.gcp_small + along * (line.gcp_large - line.gcp_small)


def strip_width_mm(least_width_mm: float, roof_height_mm: float) -> float:
    """Width a of the corner strips (Fig. 30.3-1, note 6).

    The lesser of 0.1 of the least width and 0.4 h, but neither below 0.04 of the least width nor
    below 3 ft. Status M.

    >>> round(strip_width_mm(40 * 304.8, 15 * 304.8) / 304.8, 9)
    4.0
    """
    share = min(
        constant("asce7", "strip_share_of_width").value * least_width_mm,
        constant("asce7", "strip_share_of_height").value * roof_height_mm,
    )
    least_share = constant("asce7", "strip_least_share_of_width").value * least_width_mm
    return max(share, least_share, constant("asce7", "strip_least").mm)


def zone_at(site: Asce7Site) -> tuple[Zone, tuple[Step, ...]]:
    """The sign's zone, and the steps that lead to it where it goes by place.

    A sign that reaches into a corner strip lies in zone 5 whole.

    Raises:
        InputError: By place, and the distance from the corner or the least width isn't entered.
    """
    if site.zone != "by place":
        return site.zone, ()
    corner_mm = step.asked(
        site.corner_distance_mm,
        "distance from the corner",
        "measure from the sign's outermost edge to the wall's nearest corner, or take zone 5",
    )
    width_mm = step.asked(
        site.least_width_mm,
        "least width of the building",
        "measure the building's shorter side, or take zone 5",
    )
    a_mm = strip_width_mm(width_mm, roof_height_mm(site))
    note = constant("asce7", "strip_share_of_width")
    zone: Zone = "5" if corner_mm < a_mm else "4"
    return zone, (
        Step("a", a_mm, "mm", "width of the corner strips", note.source, note.status),
        step.given("e", corner_mm, "mm", f"sign to corner: zone {zone}, {_NAMES[zone]}"),
    )


def gcp_step(zone: Zone, direction: Direction, area_mm2: float, entered: float | None) -> Step:
    """The step that shows GCp of one direction."""
    line = _lines()[zone, direction]
    name = "zones 4 and 5" if direction == "in" else f"zone {zone}, {_NAMES[zone]}"
    by_figure = Step(
        f"GCp {direction}",
        gcp(zone, direction, area_mm2),
        "",
        f"wall coefficient {_WAYS[direction]}, {name}, by effective area",
        line.source,
        line.status,
    )
    return step.chosen(by_figure, entered)


@cache
def _lines() -> dict[tuple[str, str], _Line]:
    return {
        (row["zone"], row["direction"]): _Line(
            float(row["gcp_small"]),
            float(row["small_ft2"]),
            float(row["gcp_large"]),
            float(row["large_ft2"]),
            row["source"],
            row["status"],
        )
        for row in resources.table("asce7_wall")
    }
