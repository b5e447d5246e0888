"""Artwork in, drawing out, and back in by three readers that share no code."""

import ezdxf
import numpy as np
import pyogrio
import pytest
import shapely
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from scipy.spatial import cKDTree

from holeplacer.artwork import read, source
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.documents import dxf_drawing, dxf_wish
from holeplacer.evaluation import layout
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="{w}mm" height="300mm" '
    'viewBox="0 0 {w} 300">{d}</svg>'
)

HEALTHY = [HealthCheck.function_scoped_fixture]
"""Each example overwrites the file of the one before."""

NO_SHRINKING = [Phase.explicit, Phase.reuse, Phase.generate]
"""A whole job is too slow to be repeated hundreds of times for a smaller example."""

side = st.sampled_from(["line", "cubic", "quadratic", "arc", "smooth"])
swell = st.floats(-12.0, 25.0)
letter = st.lists(st.tuples(side, swell), min_size=4, max_size=9)


def glyph(sides, centre, radius):
    """Path data of a closed letter-like shape."""
    turn = np.linspace(0, 2 * np.pi, len(sides), endpoint=False)
    at = np.array(centre) + radius * np.column_stack([np.cos(turn), np.sin(turn)])
    parts = [f"M{at[0][0]:.6f} {at[0][1]:.6f}"]
    for index, (kind, out) in enumerate(sides):
        start, end = at[index], at[(index + 1) % len(sides)]
        normal = (start + end) / 2 - centre
        off = out * normal / np.hypot(*normal)
        one, two = start + (end - start) / 3 + off, start + (end - start) * 2 / 3 + off
        ends = f"{end[0]:.6f} {end[1]:.6f}"
        parts.append({
            "line": f"L{ends}",
            "cubic": f"C{one[0]:.6f} {one[1]:.6f} {two[0]:.6f} {two[1]:.6f} {ends}",
            "quadratic": f"Q{one[0]:.6f} {one[1]:.6f} {ends}",
            "arc": f"A{radius * 0.8:.6f} {radius * 0.9:.6f} {out:.3f} 0 1 {ends}",
            "smooth": f"S{two[0]:.6f} {two[1]:.6f} {ends}",
        }[kind])  # fmt: skip
    return "".join(parts) + "Z"


def artwork(letters, apart):
    """Letters in a row, each with a counter, near ones overlapping."""
    shapes = []
    for index, sides in enumerate(letters):
        centre = (120.0 + apart * index, 150.0)
        counter = glyph([("cubic", 3.0)] * 4, centre, 25.0)
        shapes.append(f'<path fill-rule="evenodd" d="{glyph(sides, centre, 85.0)}{counter}"/>')
    width = 240 + apart * (len(letters) - 1)
    return ArtworkFile("letters.svg", SVG.format(w=width, d="".join(shapes)).encode())


@pytest.fixture(scope="module")
def fine_arcs():
    """Has GDAL step along arcs by half a degree; of itself it takes four."""
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": 0.5})
    yield
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": None})


def by_gdal(path):
    """Region of all contours as GDAL sees them, and centres of the holes."""
    meta, _, shapes, fields = pyogrio.raw.read(path)
    layer = fields[list(meta["fields"]).index("Layer")]
    lines = shapely.force_2d(shapely.from_wkb(shapes))
    boxes = shapely.bounds(lines[layer == "HOLES"])
    cut = shapely.union_all(met(lines[layer != "HOLES"]))
    return shapely.build_area(cut), (boxes[:, :2] + boxes[:, 2:]) / 2


def met(lines):
    """The lines with ends that meet within a millionth of a millimetre made equal."""
    coordinates = [shapely.get_coordinates(line) for line in lines]
    ends = np.array([xy[at] for xy in coordinates for at in (0, -1)])
    for index, near in enumerate(cKDTree(ends).query_ball_point(ends, 1e-6)):
        coordinates[index // 2][-(index % 2)] = ends[min(near)]
    return shapely.linestrings(
        np.concatenate(coordinates),
        indices=np.repeat(np.arange(len(lines)), list(map(len, coordinates))),
    )


def apart_by(one, other):
    """Area that only one of two regions has, by the length of their edges."""
    return one.symmetric_difference(other).area / other.length


@settings(max_examples=12, deadline=None, phases=NO_SHRINKING, suppress_health_check=HEALTHY)
@given(
    letters=st.lists(letter, min_size=1, max_size=3),
    apart=st.sampled_from([150.0, 240.0]),
    offset=st.sampled_from([0.0, 0.0, 1.0]),
    version=st.sampled_from(["R12", "R2000", "R2018"]),
)
def test_three_readers_see_the_sign_that_went_out(
    tmp_path, fine_arcs, letters, apart, offset, version
):
    """Our own reader, ezdxf and GDAL find the outline and the holes where the plan has them."""
    holes = tuple(Hole(index + 1, 170.0 + apart * index, 150.0) for index in range(len(letters)))
    plan = Plan(artwork(letters, apart), holes=holes, offset_mm=offset)
    made = layout.lay_out(plan)
    path = tmp_path / "sign.dxf"
    wish = dxf_wish.Wish(version, numbers=False, centre_marks=False)
    dxf_drawing.write_hole_drawing(made, path, wish)
    want, places = made.outline.region, [(hole.x_mm, hole.y_mm) for hole in holes]
    names = {entity.dxf.layer for entity in ezdxf.readfile(path).modelspace()} - {"HOLES"}
    options = ReadOptions(units="mm", layers=tuple(names), chain_mm=1e-5)
    ours = read.read_artwork(source.load_file(path), options).outline
    assert [piece.counters for piece in ours.pieces] == [p.counters for p in made.outline.pieces]
    assert apart_by(ours.region, want) < 0.02
    region, centres = by_gdal(path)
    assert apart_by(region, want) < 0.06
    assert np.abs(centres - places).max() < 1e-3
    circles = ezdxf.readfile(path).modelspace().query("CIRCLE[layer=='HOLES']")
    assert [tuple(circle.dxf.center.vec2) for circle in circles] == places
