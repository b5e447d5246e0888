"""Meshes for plates."""

import numpy as np
import pytest
import shapely
from shapely.geometry import box

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.structure import triangles
from holeplacer.structure.plate_mesh import plate_mesh
from holeplacer.structure.stations import stations


def meshed(sign, **kind):
    return plate_mesh(sign.polygon, sign.strip, **kind)


@pytest.mark.parametrize("name", ["bar", "ring", "tee", "disc", "drop"])
def test_mesh_covers_the_piece(name, request):
    """All triangles turn left and together cover the metal within a percent."""
    sign = request.getfixturevalue(name)
    xy, corners = meshed(sign)
    area = triangles.areas(xy, corners)
    assert (area > 0).all()
    assert area.sum() == pytest.approx(sign.polygon.area, rel=0.01)
    assert np.isin(np.arange(len(xy)), corners).mean() > 0.999


def test_straight_contours_are_kept_exactly(tee):
    """Corners of the contour are corners of the mesh, so that straight sides stay."""
    xy, corners = meshed(tee)
    assert triangles.areas(xy, corners).sum() == pytest.approx(tee.polygon.area, rel=1e-9)
    for corner in shapely.get_coordinates(tee.polygon.simplify(0.0)):
        assert np.hypot(*(xy - corner).T).min() < 1e-6


def test_triangles_are_well_shaped(tee):
    """No angle is smaller than 10 degrees but in a few triangles of a hundred."""
    xy, corners = meshed(tee)
    side = np.roll(xy[corners], -1, axis=1) - xy[corners]
    turned = np.roll(side, -1, axis=1)
    cosine = (
        -(side * turned).sum(axis=-1)
        / np.hypot(*np.moveaxis(side, -1, 0))
        / np.hypot(*np.moveaxis(turned, -1, 0))
    )
    smallest = np.degrees(np.arccos(np.clip(cosine, -1, 1))).min(axis=1)
    assert (smallest < 10).mean() < 0.03


def test_notches_are_meshed_finer(tee):
    """Where stem and bar meet sides are much shorter than amid the bar."""
    xy, corners = meshed(tee)
    middle = xy[corners].mean(axis=1)
    size = np.sqrt(triangles.areas(xy, corners))
    notch, plain = np.array([330.0, -30.0]), np.array([100.0, 0.0])
    near = [size[np.hypot(*(middle - at).T) < 10].mean() for at in (notch, plain)]
    assert near[0] < 0.6 * near[1]


def test_more_across_is_finer(ring):
    """Twice as many triangles across are four times as many in all."""
    few, many = (len(meshed(ring, across=a)[1]) for a in (2.5, 5.0))
    assert 3.0 < many / few < 5.0


def test_a_needle_is_meshed():
    """A stroke a hundredth as wide as another still gets triangles all along."""
    region = box(0, 0, 200, 100).union(box(200, 49.5, 500, 50.5))
    outline = Outline.from_geometry(region)
    polygon = outline.pieces[0].polygon
    xy, corners = plate_mesh(polygon, stations(medial_axis(outline), 0))
    assert triangles.areas(xy, corners).sum() == pytest.approx(polygon.area, rel=1e-6)
    assert xy[:, 0].max() == pytest.approx(500.0)


def test_every_corner_is_used_and_all_hang_together(drop, tee):
    """No corner is left without a triangle: it would have no stiffness at all."""
    for sign in (drop, tee):
        xy, corners = meshed(sign)
        assert set(corners.ravel()) == set(range(len(xy)))


def test_a_neck_thinner_than_the_steps_is_not_cut():
    """Two lobes joined by a hair stay one mesh."""
    t = np.linspace(0, np.pi, 200)
    wave = 0.004 + 40 * np.abs(np.cos(t)) ** 3
    neck = shapely.Polygon(
        np.concatenate([np.column_stack([100 * t, wave]), np.column_stack([100 * t, -wave])[::-1]])
    )
    outline = Outline.from_geometry(neck)
    polygon = outline.pieces[0].polygon
    xy, corners = plate_mesh(polygon, stations(medial_axis(outline), 0))
    assert set(corners.ravel()) == set(range(len(xy)))
    low, high = (corners[(xy[corners, 0] * side < 157 * side).any(axis=1)] for side in (1, -1))
    assert set(low.ravel()) & set(high.ravel())
