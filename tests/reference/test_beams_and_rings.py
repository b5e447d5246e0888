"""Closed forms of beams, bars curved in plan, rings and strips, each within half a percent.

Sources: two- to five-span beams, three moment theorem (handbook tables, recomputed); quarter circle
and ring, theory of bars curved in plan, as in Roark's Formulas for Stress and Strain (recomputed).
Status R: every figure follows from the formula beside it; check C of the quarter circle was also
found by a separate frame program.

All go through the whole path: an outline, its medial axis, the sign, holes, an answer. Standoffs of
a straight bar stand in pairs across it, since a bar on one line of holes could turn about it.
"""

from dataclasses import replace

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon, box

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.structure import beam, grillage, response, supports
from holeplacer.structure.response import Case
from holeplacer.structure.stations import stations

E, G, T = 210e3, 210e3 / 2.6, 3.0
B = 20.0
SPAN = 1000.0
END = B / 2
"""The bar reaches this far beyond its outermost holes: no further than the axis."""
I = B * T**3 / 12  # noqa: E741 (the second moment's own letter)
P = 1e-3
W = P * B


def near(value, rel=5e-3):
    return pytest.approx(value, rel=rel, abs=1e-6)


def built(region):
    outline = Outline.from_geometry(region)
    axis = medial_axis(outline)
    sign = grillage.grillage(outline, axis, thickness_mm=T, elastic_mpa=E, shear_mpa=G)
    assert sign.models == ("strokes",)
    return sign


def answered(sign, holes, *, clamped=False, pressure=P):
    return response.respond(sign, holes, [Case("pressure out", pressure)], clamped=clamped)[0]


class Beam:
    """A bar on pairs of holes at some places along it."""

    def __init__(self, places, length, *, clamped=False):
        self.sign = built(box(-END, 0, length + END, B))
        pairs = [(x, B / 2 + y) for x in places for y in ((0,) if clamped else (-4.0, 4.0))]
        self.found = answered(self.sign, pairs, clamped=clamped)
        branch = self.sign.axis.branches[0]
        self.x = np.interp(self.sign.ways[0], branch.s, branch.xy[:, 0])
        self.w = np.abs(self.found.deflection_mm[0])
        self.m = self.found.stress_mpa[0] * B * T**2 / 6
        reactions = np.array(self.found.reactions_n)
        self.r = reactions if clamped else reactions.reshape(-1, 2).sum(axis=1)

    def within(self, values, low, high):
        """Greatest value between two places."""
        return values[(self.x >= low) & (self.x <= high)].max()

    def at(self, values, place):
        order = np.argsort(self.x)
        return np.interp(place, self.x[order], values[order])


def test_simple_beam():
    """M w L^2 / 8, deflection 5 w L^4 / 384 E I."""
    one = Beam([0, SPAN], SPAN)
    assert one.within(one.m, 0, SPAN) == near(W * SPAN**2 / 8)
    assert one.within(one.w, 0, SPAN) == near(5 * W * SPAN**4 / 384 / E / I)
    assert one.r == near(W * (SPAN + 2 * END) / 2, rel=1e-9)


def test_fixed_beam():
    """Ends w L^2 / 12, middle w L^2 / 24, deflection w L^4 / 384 E I."""
    one = Beam([0, SPAN], SPAN, clamped=True)
    assert one.at(one.m, SPAN / 2) == near(W * SPAN**2 / 24)
    assert one.within(one.w, 0, SPAN) == near(W * SPAN**4 / 384 / E / I)
    assert np.abs(one.found.moments_nmm[:, 0]) == near(W * (SPAN**2 / 12 - END**2 / 2))


def test_cantilever():
    """Under w: deflection w L^4 / 8 E I, moment w L^2 / 2."""
    one = Beam([0], SPAN, clamped=True)
    length = SPAN + END
    assert one.found.max_deflection_mm == near(W * length**4 / 8 / E / I)
    assert abs(one.found.moments_nmm[0, 0]) == near(W * (length**2 - END**2) / 2)


SUPPORT_MOMENTS = {2: [1 / 8], 3: [1 / 10], 4: [3 / 28, 2 / 28], 5: [4 / 38, 3 / 38]}
"""By w L^2, from the second support inwards."""
SPANS = {
    2: ([3 / 8, 10 / 8], [0.0703], [0.005416], [0.4216]),
    3: ([4 / 10, 11 / 10], [0.080, 0.025], [0.006884, 0.000521], [0.446, 0.5]),
    4: ([11 / 28, 32 / 28, 26 / 28], [0.0772, 0.0364], [0.006460, 0.001891], [0.440, None]),
    5: (
        [15 / 38, 43 / 38, 37 / 38],
        [0.0779, 0.0332, 0.0461],
        [0.006572, 0.001526, 0.003152],
        [0.441, None, 0.5],
    ),
}
"""Reactions from the end inwards, moments amid the spans, deflections, and where."""


@pytest.mark.parametrize("count", SPANS)
def test_continuous_beam(count):
    """Reactions, moments, deflections and their places on two to five equal spans."""
    reactions, moments, deflections, places = SPANS[count]
    one = Beam(SPAN * np.arange(count + 1), count * SPAN)
    for index, moment in enumerate(SUPPORT_MOMENTS[count]):
        low, high = SPAN * (index + 0.95), SPAN * (index + 1.05)
        assert one.within(one.m, low, high) / (W * SPAN**2) == near(moment)
    inner = one.r[: len(reactions)] / W / SPAN
    assert inner[0] - END / SPAN == near(reactions[0])
    assert inner[1:] == near(np.array(reactions[1:]))
    for index, (moment, deflection) in enumerate(zip(moments, deflections, strict=True)):
        low, high = SPAN * (index + 0.2), SPAN * (index + 0.8)
        assert one.within(one.w, low, high) / (W * SPAN**4 / E / I) == near(deflection)
        inner = (SPAN * (index + 0.35), SPAN * (index + 0.65)) if index else (low, high)
        assert one.within(one.m, *inner) / (W * SPAN**2) == near(moment)
        if places[index]:
            spot = one.x[(one.x > low) & (one.x < high)]
            peak = spot[one.w[(one.x > low) & (one.x < high)].argmax()]
            assert peak / SPAN - index == pytest.approx(places[index], abs=0.012)


def test_propped_beam():
    """Half of two spans is fixed by symmetry at the middle: R 5/8 and 3/8, w L^4 / 185 E I."""
    one = Beam([0, SPAN, 2 * SPAN], 2 * SPAN)
    assert one.r[1] / 2 / W / SPAN == near(5 / 8)
    assert one.within(one.w, 0, SPAN) == near(W * SPAN**4 / 184.6 / E / I)
    assert one.within(one.m, 0.2 * SPAN, 0.5 * SPAN) == near(9 * W * SPAN**2 / 128)


def test_best_overhangs():
    """Two supports 0.20711 L from both ends: greatest moment 0.021447 w L^2."""
    length = 1000.0
    sign = built(box(0, 0, length, B))
    x = 0.20711 * length
    found = answered(sign, [(x, 6), (x, 14), (length - x, 6), (length - x, 14)])
    middle = found.stress_mpa[0][np.abs(sign.ways[0] - sign.ways[0][-1] / 2).argmin()]
    assert middle * B * T**2 / 6 == near(0.021447 * P * B * length**2)


def loaded(sign, place, kind, amount):
    """The sign's only piece under one force (kind 0) or moment at a place instead of pressure."""
    body = sign.bodies[0].body
    row = body.attach(np.array([place]))[kind]
    return supports.held(replace(body, load=row.transposed(np.array([amount]))))


def at(held, answer, place, kind=0):
    return held.body.attach(np.array([place]))[kind].of(answer.freedoms)[0]


def test_cantilever_with_a_tip_load():
    """P L^3 / 3 E I."""
    sign = built(box(-END, 0, SPAN + END, B))
    held = loaded(sign, (SPAN, B / 2), 0, 1.0)
    answer = supports.answer(held, np.array([(0.0, B / 2)]), clamped=True)
    assert at(held, answer, (SPAN, B / 2)) == near(SPAN**3 / 3 / E / I)


def test_simple_beam_with_a_load_in_the_middle():
    """P L^3 / 48 E I."""
    sign = built(box(-END, 0, SPAN + END, B))
    held = loaded(sign, (SPAN / 2, B / 2), 0, 1.0)
    pairs = np.array([(x, y) for x in (0.0, SPAN) for y in (6.0, 14.0)])
    answer = supports.answer(held, pairs, clamped=False)
    assert at(held, answer, (SPAN / 2, B / 2)) == near(SPAN**3 / 48 / E / I)
    assert answer.forces[:, 0] == near(0.25)


def test_strip_torsion():
    """A torque at the end turns it by T L / G J, J = 342.98 mm4 for 40 x 3 mm."""
    sign = built(box(-20, 0, 1020, 40))
    held = loaded(sign, (1000.0, 20.0), 2, 1000.0)
    answer = supports.answer(held, np.array([(0.0, 20.0)]), clamped=True)
    assert at(held, answer, (1000.0, 20.0), 2) == near(1000.0 * 1000.0 / G / 342.98)


def quarter():
    """A quarter circle of R 500, 40 x 3, from its root at (500, 0) to its tip at (0, 500)."""
    turn = np.linspace(0, np.pi / 2, 200)
    circle = np.column_stack([np.cos(turn), np.sin(turn)])
    root = [[520.0, -60.0], [480.0, -60.0]]
    return built(Polygon(np.concatenate([520 * circle, 480 * circle[::-1], root[::-1]])))


def test_quarter_circle_with_a_tip_load():
    """Check C: P R^3 [(pi/4) / E I + (3 pi/4 - 2) / G J]: 68.017 mm under 10 N."""
    sign = quarter()
    held = loaded(sign, (0.0, 500.0), 0, 10.0)
    answer = supports.answer(held, np.array([(500.0, 0.0)]), clamped=True)
    assert at(held, answer, (0.0, 500.0)) == near(68.017)
    assert np.abs(answer.forces[0]) == near(np.array([10.0, 5000.0, 5000.0]))


def test_quarter_circle_of_a_round_bar():
    """Check A: P 50 lb, R 100 in, d 2 in, E 30e6 psi, nu 0.3: 2.649 in (published 2.648).

    No strip has a round section: the quarter circle's beams are given that bar's E I and G J.
    """
    strip = stations(quarter().axis, 0)
    inch, pound = 25.4, 4.4482216
    inertia, elastic = np.pi * (2 * inch) ** 4 / 64, 30e6 * pound / inch**2
    scale = 100 * inch / 500.0
    step = scale * (strip.xy[strip.last] - strip.xy[strip.first])
    every = np.ones(len(step))
    local = beam.stiffness(step, elastic * inertia * every, elastic / 2.6 * 2 * inertia * every)
    at_ends = np.stack([strip.first, strip.last], axis=1)
    freedom = (3 * at_ends[:, :, None] + np.arange(3)).reshape(-1, 6)
    stiff = np.zeros((3 * len(strip.xy), 3 * len(strip.xy)))
    np.add.at(stiff, (freedom[:, :, None], freedom[:, None, :]), local)
    arc = strip.xy[:, 1] > 0
    root = np.flatnonzero(arc)[np.abs(strip.xy[arc, 1]).argmin()]
    tip = strip.xy[:, 1].argmax()
    inner = np.repeat(arc, 3)
    inner[3 * root : 3 * root + 3] = False
    load = np.zeros(len(stiff))
    load[3 * tip] = 50 * pound
    moved = np.linalg.solve(stiff[np.ix_(inner, inner)], load[inner])
    swept = np.arctan2(strip.xy[tip, 1], strip.xy[tip, 0]) - np.arctan2(*strip.xy[root][::-1])
    bend = (swept - np.sin(2 * swept) / 2) / 2
    twist = swept - 2 * np.sin(swept) + (swept + np.sin(2 * swept) / 2) / 2
    formula = 50 * pound * (100 * inch) ** 3 * (bend + 1.3 * twist) / elastic / inertia
    top = np.zeros(len(stiff))
    top[inner] = moved
    assert top[3 * tip] == near(formula)
    whole = 50 * 100**3 * (np.pi / 4 + 1.3 * (3 * np.pi / 4 - 2)) / 30e6 / (np.pi * 2**4 / 64)
    assert whole == pytest.approx(2.649, abs=0.001)
    assert 50 * 100 * 1.0 / (np.pi * 2**4 / 64) == pytest.approx(6366, abs=1)


def test_quarter_circle_under_uniform_load():
    """w R^4 [1 / 2 E I + (pi/2 - 1)^2 / 2 G J]: 101.048 mm under 0.05 N/mm."""
    sign = quarter()
    found = answered(sign, [(500.0, 0.0)], clamped=True, pressure=0.05 / 40)
    branch = sign.axis.branches[0]
    held = sign.bodies[0]
    answer = supports.answer(held, np.array([(500.0, 0.0)]), clamped=True)
    assert at(held, answer, (0.0, 500.0)) * 0.05 / 40 == near(101.048)
    assert branch.piece == 0
    assert found.mechanisms == ()


RING_B = 8.0
"""Narrow, since the thin ring's formulas put the load on the middle line: its centre is b^2 / 12 R
further out, which counts by a percent at 20 mm on twelve supports."""
RING = {
    3: (0.3954, 0.2092, 0.0828, 0.06324, 0.006953),
    4: (0.2146, 0.1107, 0.0331, 0.01801, 0.0011125),
    6: (0.0931, 0.0472, 0.0095, 0.003311, 0.0000908),
    8: (0.0519, 0.0262, 0.0040, 0.001022, 0.0000158),
    12: (0.0230, 0.0115, 0.0012, None, None),
}
"""Support moment, mid moment and greatest torque by w R^2, deflection by w R^4 / E I and G J."""


@pytest.fixture(scope="module")
def ring():
    centre = shapely.Point(0, 0)
    half = RING_B / 2
    return built(centre.buffer(500 + half, 250).difference(centre.buffer(500 - half, 250)))


@pytest.mark.parametrize("count", RING)
def test_ring_on_equal_supports(ring, count):
    """Reactions, mid moment, torque and deflection of a ring under uniform load."""
    _, mid, torque, bend, twist = RING[count]
    radius, half = 500.0, np.pi / count
    held, line = ring.bodies[0], ring.outline.area_mm2 / (2 * np.pi * radius)
    holes = equal_supports(count)
    answer = supports.answer(held, holes, clamped=False)
    assert answer.forces[:, 0] == near(ring.outline.area_mm2 / count, rel=1e-4)
    moment, twisting = moments(held.body, answer, holes)
    angle = np.arctan2(*held.body.gauges.xy.T[::-1]) % (2 * half)
    middle = np.abs(angle - half) < 0.25 * half
    fit = np.polyfit(angle[middle] - half, np.abs(moment[middle]), 2)
    exact = half / np.sin(half) - 1
    assert fit[-1] == near(exact * line * radius**2)
    assert exact == pytest.approx(mid, abs=6e-5)
    peak = np.arccos(np.sin(half) / half)
    greatest = half * np.sin(peak) / np.sin(half) - peak
    assert greatest == pytest.approx(torque, abs=6e-5)
    assert np.abs(twisting).max() == near(greatest * line * radius**2)
    if bend:
        torsion = beam.torsion_mm4(np.array([RING_B]), T)[0]
        inertia = RING_B * T**3 / 12
        wanted = line * radius**4 * (bend / E / inertia + twist / G / torsion)
        spot = radius * np.array([[np.cos(half), np.sin(half)]])
        assert held.body.attach(spot)[0].of(answer.freedoms)[0] == near(wanted)


@pytest.mark.parametrize("turned", [0.0, 0.123])
@pytest.mark.parametrize("count", RING)
def test_ring_support_moment(ring, count, turned):
    """At each support the moment is w R^2 (1 - th / tan th), wherever on its beam it stands."""
    half, line = np.pi / count, ring.outline.area_mm2 / (2 * np.pi * 500.0)
    exact = 1 - half / np.tan(half)
    assert exact == pytest.approx(RING[count][0], abs=6e-5)
    found = answered(ring, equal_supports(count, turned))
    assert found.max_stress_mpa * RING_B * T**2 / 6 == near(exact * line * P * 500.0**2)


def equal_supports(count, turned=0.0):
    """Holes on the ring's middle line."""
    turn = 2 * np.pi / count * np.arange(count) + turned
    return 500.0 * np.column_stack([np.cos(turn), np.sin(turn)])


def moments(body, answer, holes):
    """Bending moment and torque at every gauge."""
    gauges = body.gauges
    plain = (gauges.components @ answer.freedoms + gauges.preset).reshape(3, -1)
    plain, _, _ = gauges.points.added(plain, holes, answer.forces)
    polar = beam.torsion_modulus_mm3(np.array([RING_B]), T)[0]
    return plain[0] * RING_B * T**2 / 6, plain[2] * polar


def test_ring_on_two_supports_is_a_mechanism(ring):
    """It turns about the line through them: said, not divided by zero."""
    found = answered(ring, [(500.0, 0.0), (-500.0, 0.0)])
    assert [m.piece for m in found.mechanisms] == [0]
    assert "turn about the line" in found.mechanisms[0].why
    assert found.reactions_n == (0.0, 0.0)
    assert found.max_deflection_mm == 0.0
