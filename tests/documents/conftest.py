"""Letter-like pages: closed contours whose sides are lines, arcs, ellipses and splines."""

import math
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
import shapely

from holeplacer.artwork import drawing, rings
from holeplacer.artwork.account import Entry, ImportAccount
from holeplacer.artwork.artwork import Artwork, ArtworkFile
from holeplacer.documents import page as pages
from holeplacer.evaluation.layout import Layout
from holeplacer.geometry import flatten, trim
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Polyline, Spline
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.drawn import DrawnCurves
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan

LAYERS = (
    pages.Layer("0", pages.Role.CONTOUR, 7),
    pages.Layer("Künstler", pages.Role.CONTOUR, 7),
    pages.Layer("HOLES", pages.Role.HOLE, 1),
    pages.Layer("MARKS", pages.Role.MARK, 3),
)


def side(kind: str, start: np.ndarray, end: np.ndarray, swell: float) -> Curve:
    """A curve of one kind between two points that leaves their chord by about `swell`."""
    chord = end - start
    length = float(np.hypot(*chord))
    normal = np.array([chord[1], -chord[0]]) / length
    if kind == "line":
        return Polyline(np.array([start, end]))
    if kind == "steps":
        return Polyline(np.array([start, (start + end) / 2 + swell * normal, end]))
    if kind == "bulges":
        middle = (start + end) / 2
        return Polyline(np.array([start, middle, end]), np.array([swell / length, 0.0, 0.0]))
    if kind == "arc":
        bulge = 1.3 * swell / length
        sweep, radius = 4 * math.atan(bulge), length * (1 + bulge**2) / (4 * bulge)
        centre = (start + end) / 2 - normal * (radius - bulge * length / 2)
        return CircularArc(tuple(centre), abs(radius), math.atan2(*(start - centre)[::-1]), sweep)
    if kind == "ellipse":
        return EllipticArc(tuple((start + end) / 2), tuple((start - end) / 2), 0.3, 0.0, math.pi)
    inner = [start + chord / 3 + swell * normal, start + chord * 2 / 3 + swell * normal]
    control, knots = np.array([start, *inner, end]), np.repeat([0.0, 1.0], 4)
    weights = np.array([1.0, 0.6, 1.7, 1.0]) if kind == "rational" else None
    return Spline(3, control, knots, weights)


def contour(
    kinds: Sequence[str], centre: tuple[float, float], radius: float, swell: float, outer: bool
) -> pages.Contour:
    """A closed contour, some of its curves drawn against its direction."""
    turn = np.linspace(0.0, 2 * math.pi, len(kinds), endpoint=False)
    corners = np.array(centre) + radius * np.column_stack([np.cos(turn), np.sin(turn)])
    strokes = []
    for index, kind in enumerate(kinds):
        start, end = corners[index], corners[(index + 1) % len(kinds)]
        backwards = index % 2 == 1
        curve = side(kind, end, start, -swell) if backwards else side(kind, start, end, swell)
        if kind in ("arc", "ellipse") and backwards:
            curve = side(kind, start, end, swell)
            backwards = False
        strokes.append(pages.Stroke(curve, LAYERS[index % 2].name, backwards))
    return pages.Contour(tuple(strokes), outer)


def ring(contour: pages.Contour, tolerance_mm: float) -> np.ndarray:
    """Points of a contour, the first not repeated."""
    parts = []
    for stroke in contour.strokes:
        xy = flatten.flatten(stroke.curve, tolerance_mm)[1]
        parts.append((xy[::-1] if stroke.backwards else xy)[:-1])
    return np.concatenate(parts)


@pytest.fixture(scope="session")
def letter_page() -> Callable[..., tuple[pages.Page, Outline]]:
    """A page of one letter per list of kinds, with a counter each, and the outline it draws."""

    def build(letters: Sequence[Sequence[str]], swell: float = 4.0) -> tuple[pages.Page, Outline]:
        contours, polygons, circles, marks = [], [], [], []
        for index, kinds in enumerate(letters):
            centre = (200.0 * index + 0.123456789, -50.0)
            outside = contour(kinds, centre, 80.0, swell, outer=True)
            counter = contour(kinds[::-1], centre, 30.0, -swell / 4, outer=False)
            contours += [outside, counter]
            polygons.append(shapely.Polygon(ring(outside, 0.02), [ring(counter, 0.02)]))
            circles.append(pages.Circle(index + 1, centre[0] + 55.0, -50.0, 7.144))
            marks.append(pages.CentreMark(index + 1, centre[0] + 55.0, -50.0, 3.0))
        outline = Outline.from_geometry(shapely.union_all(polygons))
        labels = (pages.Label("1 °", 0.0, 10.0, 5.0),)
        page = pages.Page(
            LAYERS, tuple(contours), tuple(circles), tuple(marks), labels, outline.bounds_mm, 0.02
        )
        return page, outline

    return build


def drawn_of(contours: Sequence[pages.Contour]) -> tuple[DrawnCurves, list[np.ndarray]]:
    """What a reader makes of contours: the drawn curves and the rings flattened from them."""
    parts = [
        drawing.DrawnContour(
            tuple(
                drawing.DrawnSegment(
                    trim.reversed_curve(stroke.curve) if stroke.backwards else stroke.curve,
                    stroke.layer,
                    "SPLINE",
                )
                for stroke in contour.strokes
            )
        )
        for contour in contours
    ]
    flat = rings.flattened_rings(parts, 0.02)
    segments = [segment for part in parts for segment in part.segments]
    drawn = DrawnCurves(
        tuple(segment.curve for segment in segments),
        tuple(segment.layer for segment in segments),
        tuple(segment.kind for segment in segments),
        flat.xy,
        flat.curve,
        flat.t,
    )
    return drawn, list(flat.rings)


@pytest.fixture(scope="session")
def drawn_letters() -> Callable[..., tuple[DrawnCurves, Outline]]:
    """Letters with a counter each, as a reader gives them, so many mm apart and united."""

    def build(
        letters: Sequence[Sequence[str]], *, apart: float = 200.0, layer: str | None = None
    ) -> tuple[DrawnCurves, Outline]:
        contours = []
        for index, kinds in enumerate(letters):
            centre = (apart * index + 0.123456789, -50.0)
            contours.append(contour(kinds, centre, 80.0, 4.0, outer=True))
            contours.append(contour(kinds[::-1], centre, 30.0, -1.0, outer=False))
        if layer is not None:
            contours = [
                pages.Contour(tuple(replace(s, layer=layer) for s in c.strokes), c.outer)
                for c in contours
            ]
        drawn, flat = drawn_of(contours)
        metal = [
            shapely.Polygon(outside, [counter])
            for outside, counter in zip(flat[::2], flat[1::2], strict=True)
        ]
        return drawn, Outline.from_geometry(shapely.union_all(metal))

    return build


@pytest.fixture(scope="session")
def laid_out(drawn_letters: Callable[..., tuple[DrawnCurves, Outline]]) -> Callable[..., Layout]:
    """Two letters with holes at given places, laid out as the program does."""

    def build(
        *holes: Hole, kinds: Sequence[str] = ("spline",) * 5, layer: str | None = None
    ) -> Layout:
        drawn, outline = drawn_letters([kinds, kinds], layer=layer)
        plan = Plan(ArtworkFile("two letters.svg", b"<svg/>"), holes=holes)
        account = ImportAccount(
            read=(Entry("path", "cut", 2),), mended=(Entry("gap joined", "x 1", 1, (1.0, 2.0)),)
        )
        artwork = Artwork(outline, drawn, account, "mm", True, (("cut", 2, True),), 1.0)
        return Layout(plan, artwork, outline, medial_axis.medial_axis(outline))

    return build


@pytest.fixture(scope="session")
def sign_of() -> Callable[..., Layout]:
    """A layout of any area, for documents that ask for no axis."""

    def build(area: shapely.Geometry, *holes: Hole, **decided: Any) -> Layout:
        outline = Outline.from_geometry(area)
        plan = Plan(ArtworkFile("Heron & Lantern.svg", b"<svg/>"), holes=holes, **decided)
        drawn = DrawnCurves((), (), (), np.zeros((0, 2)), np.zeros(0, np.intp), np.zeros(0))
        artwork = Artwork(outline, drawn, ImportAccount(), "mm", True, (), 1.0)
        return Layout(plan, artwork, outline, None)

    return build


@pytest.fixture(scope="session")
def wave() -> Callable[..., shapely.Geometry]:
    """A stroke of some width along a wave, as long as wanted, with many vertices."""

    def build(
        long_mm: float, high_mm: float = 300.0, stroke_mm: float = 30.0, vertices: int = 400
    ) -> shapely.Geometry:
        t = np.linspace(0.0, 1.0, vertices)
        high = max(high_mm - stroke_mm, 1.0) / 2
        xy = np.column_stack(
            [(long_mm - stroke_mm) * t, high * np.sin(2 * np.pi * t * max(1, long_mm // 400))]
        )
        return shapely.LineString(xy).buffer(stroke_mm / 2)

    return build
