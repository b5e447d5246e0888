"""Divides letterings onto sheets and holds the result to what can be checked by plain geometry.

    .venv/bin/python scripts/check_sections.py FOLDER... [--stock SIZE]... [--no-holes]

takes every SVG in the folders whose name ends in its width in mm (NAME-WIDTH.svg) of 1.5 m or
more, places holes, chooses seams for every sheet size, lays the sections out, and checks: every
section as it is laid lies within its sheet's usable rectangle and apart from the others; the
sections' union is the outline to 0.01 mm2 per mm of seam; no seam is nearer a hole's edge, a tip
or a junction's disc than entered, nor shorter than the stroke it cuts. One line for each, with
the time of the processor; ends with 1 if anything failed.
"""

import argparse
import re
import statistics
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from time import process_time

import numpy as np
import shapely
from shapely import affinity
from shapely.geometry import box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.read import read_artwork
from holeplacer.cutting import division
from holeplacer.cutting.division import Division
from holeplacer.errors import HoleplacerError
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement.propose import propose
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import choice
from holeplacer.sheet.stock import parse_stock

LEAST_WIDTH_MM = 1500.0
STOCK = ("48 x 48 in", "47 1/8 x 47 1/8 in")
UNION_MM2_PER_MM = 0.01
_NEAR_MM = 1e-4


@dataclass(frozen=True)
class Sign:
    """A lettering with its holes."""

    plan: Plan
    outline: Outline
    axis: Axis


def main() -> int:
    """Check every lettering on every sheet; the number of failures decides the status."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("folders", nargs="+", type=Path)
    parser.add_argument("--stock", action="append", help="sheet size; may be given again")
    parser.add_argument("--no-holes", action="store_true", help="leave out the holes")
    wanted = parser.parse_args()
    seconds, failures, unproven, more_sheets = list[float](), 0, 0, 0
    for path, width in _letterings(wanted.folders):
        sign = _sign(path, width, holes=not wanted.no_holes)
        for size in wanted.stock or STOCK:
            plan = edit.with_sections(sign.plan, SectionsChoice(stock=(parse_stock(size),)))
            begun = process_time()
            try:
                found = choice.choose(plan, sign.outline, sign.axis)
                chosen = process_time() - begun
                plan = edit.with_seams(plan, found.seams)
                laid = division.division(plan, sign.outline)
            except HoleplacerError as error:
                print(f"{path.stem:<44} {size:<20} REFUSED {error}", flush=True)
                failures += 1
                continue
            taken = process_time() - begun
            faults = list(_faults(plan, sign, laid))
            seconds.append(taken)
            failures += bool(faults)
            unproven += not found.proven
            sheets = len(laid.sheets)
            bound = _least_sheets(plan, sign.outline)
            more_sheets += sheets > bound
            print(
                f"{path.stem:<44} {size:<20} {found.sections:>3} sections >= {found.lower_bound:<3}"
                f"{len(found.seams):>3} seams {found.weld_mm:>6.0f} mm  {sheets} sheets >= {bound}"
                f"  {chosen:5.2f} + {taken - chosen:4.2f} s  {'; '.join(faults)}",
                flush=True,
            )
    print(
        f"{len(seconds)} divided, {failures} failed, {unproven} with a number not proven, "
        f"{more_sheets} on more sheets than by area; median {statistics.median(seconds):.2f} s, "
        f"at most {max(seconds):.2f} s of the processor"
    )
    return int(failures > 0)


def _letterings(folders: list[Path]) -> Iterator[tuple[Path, float]]:
    for folder in folders:
        for path in sorted(folder.glob("*.svg")):
            named = re.fullmatch(r".*-(\d+)", path.stem)
            if named and float(named[1]) >= LEAST_WIDTH_MM:
                yield path, float(named[1])


def _sign(path: Path, width_mm: float, *, holes: bool) -> Sign:
    file, options = ArtworkFile(path.name, path.read_bytes()), ReadOptions(width_mm=width_mm)
    outline = read_artwork(file, options).outline
    plan, axis = Plan(file, options), medial_axis(outline)
    if holes:
        plan = edit.with_holes(plan, propose(plan, outline, axis).holes)
    return Sign(plan, outline, axis)


def _least_sheets(plan: Plan, outline: Outline) -> int:
    """By area alone; no layout reaches it but where there is room to spare."""
    (stock,) = plan.sections.stock
    margin = 2 * plan.sections.margin_mm
    filled = sum(shapely.Polygon(piece.polygon.exterior).area for piece in outline.pieces)
    usable = (stock.width_mm - margin) * (stock.height_mm - margin)
    return int(np.ceil(min(filled, outline.area_mm2) / usable))


def _faults(plan: Plan, sign: Sign, laid: Division) -> Iterator[str]:
    """What is wrong with a division, by plain geometry."""
    if laid.layout is None:
        yield "NOT LAID"
        return
    yield from _lying(plan, laid)
    union = shapely.union_all([part.polygon for part in laid.layout.sections])
    off = union.symmetric_difference(sign.outline.region).area
    length = sum(seam.length_mm for seam in plan.seams)
    if off > UNION_MM2_PER_MM * length + 1e-6 * sign.outline.perimeter_mm:
        yield f"UNION off by {off:.3g} mm2 over {length:.0f} mm of seam"
    yield from _too_near(plan, sign)


def _lying(plan: Plan, laid: Division) -> Iterator[str]:
    """Sections outside their sheet's usable rectangle, or too near each other."""
    if laid.layout is None:
        return
    stock, margin = plan.sections.stock[0], plan.sections.margin_mm
    usable = box(margin, margin, stock.width_mm - margin, stock.height_mm - margin)
    lying: dict[int, list[shapely.Polygon]] = {}
    for item in laid.layout.placed:
        part = shapely.Polygon(laid.layout.section(item.section).polygon.exterior)
        turned = affinity.rotate(part, item.angle_rad, origin=(0.0, 0.0), use_radians=True)
        there = affinity.translate(turned, item.x_mm, item.y_mm)
        if not usable.buffer(_NEAR_MM).covers(there):
            yield f"section {item.section} OUTSIDE its sheet"
        others = lying.setdefault(item.sheet, [])
        if any(other.distance(there) < plan.sections.apart_mm - _NEAR_MM for other in others):
            yield f"section {item.section} TOO NEAR another"
        others.append(there)


def _too_near(plan: Plan, sign: Sign) -> Iterator[str]:
    """Seams nearer a hole's edge, a tip or a junction's disc than entered."""
    clear, axis = plan.sections.seam_clear_mm - _NEAR_MM, sign.axis
    discs = [
        *(("hole", h.x_mm, h.y_mm, plan.diameter_of(h) / 2) for h in plan.holes),
        *(("tip", *tip.xy, 0.0) for tip in axis.tips),
        *(
            ("junction", *axis.node_xy[node], float(axis.node_clearance[node]))
            for node in np.flatnonzero(axis.degree >= 3)
        ),
    ]
    for number, seam in enumerate(plan.seams, start=1):
        line = shapely.LineString([(seam.x1_mm, seam.y1_mm), (seam.x2_mm, seam.y2_mm)])
        for what, x, y, radius in discs:
            if line.distance(shapely.Point(x, y)) - radius < clear:
                yield f"seam {number} NEAR a {what}"
        if abs(line.intersection(sign.outline.region).length - line.length) > 1e-3:
            yield f"seam {number} LEAVES the metal"


if __name__ == "__main__":
    raise SystemExit(main())
