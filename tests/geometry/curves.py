"""Curves of every kind for property tests, and the slow, plain ways that judge the fast ones."""

import math

import numpy as np
from hypothesis import strategies as st

from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline, Spline

EXAMPLES = {"max_examples": 40, "deadline": None}

coordinates = st.floats(-500, 500).map(lambda value: round(value, 3))
angles = st.floats(-7, 7)
sweeps = st.floats(0.01, 2 * math.pi) | st.floats(-2 * math.pi, -0.01)
either = st.booleans()
points = st.tuples(coordinates, coordinates)


@st.composite
def polylines(draw, bulged=either):
    xy = np.array(draw(st.lists(points, min_size=2, max_size=12)))
    bulges = None
    if draw(bulged):
        bulge = st.floats(-3, 3) | st.just(0.0) | st.just(1.0)
        bulges = np.array(draw(st.lists(bulge, min_size=len(xy), max_size=len(xy))))
    return Polyline(xy, bulges, draw(st.booleans()))


circular_arcs = st.builds(CircularArc, points, st.floats(0.01, 400), angles, sweeps)


@st.composite
def elliptic_arcs(draw):
    length, turn = draw(st.floats(0.1, 400)), draw(angles)
    major = (length * math.cos(turn), length * math.sin(turn))
    return EllipticArc(draw(points), major, draw(st.floats(0.01, 1)), draw(angles), draw(sweeps))


@st.composite
def splines(draw, rational=either, clamped=either):
    degree = draw(st.integers(1, 5))
    control = np.array(draw(st.lists(points, min_size=degree + 1, max_size=degree + 7)))
    count = len(control)
    inner = np.cumsum(
        draw(
            st.lists(
                st.sampled_from([0.25, 1.0, 1.5]),
                min_size=count + degree + 1,
                max_size=count + degree + 1,
            )
        )
    )
    if draw(clamped):
        inner[: degree + 1] = inner[degree]
        inner[count:] = inner[count]
    if degree > 1 and count > degree + 1 and draw(st.booleans()):
        inner[degree + 1] = inner[degree + 2] if count > degree + 2 else inner[degree + 1]
    weights = None
    if draw(rational):
        weight = st.floats(0.2, 5)
        weights = np.array(draw(st.lists(weight, min_size=count, max_size=count)))
    return Spline(degree, control, inner, weights)


curves = polylines() | circular_arcs | elliptic_arcs() | splines()


@st.composite
def affine_maps(draw):
    """Maps that neither crush nor blow up; half of them similar."""
    turn, scale = draw(angles), draw(st.floats(0.1, 10))
    cos, sin = scale * math.cos(turn), scale * math.sin(turn)
    flip = -1.0 if draw(st.booleans()) else 1.0
    linear = np.array([[cos, -sin * flip], [sin, cos * flip]])
    if draw(st.booleans()):
        stretch = np.array([[draw(st.floats(0.2, 3)), draw(st.floats(-1, 1))], [0.0, 1.0]])
        linear = linear @ stretch
    return np.column_stack([linear, draw(points)])


def distance_to_chain(xy, chain):
    """Distance of each point (n, 2) to the nearest step of a chain (m, 2), all against all."""
    start, step = chain[:-1], np.diff(chain, axis=0)
    square = np.maximum((step**2).sum(axis=1), 1e-300)
    away = xy[:, None] - start
    share = np.clip((away * step).sum(axis=2) / square, 0, 1)
    return np.linalg.norm(away - share[:, :, None] * step, axis=2).min(axis=1)


def de_boor(curve, t):
    """One point of a spline by the basis functions' own recursion (Cox and de Boor)."""

    def basis(i, p):
        u = curve.knots
        if p == 0:
            last = u[i + 1] == u[len(curve.control)] and t == u[i + 1]
            return 1.0 if u[i] <= t < u[i + 1] or (last and u[i] < t) else 0.0
        total = 0.0
        if u[i + p] > u[i]:
            total += (t - u[i]) / (u[i + p] - u[i]) * basis(i, p - 1)
        if u[i + p + 1] > u[i + 1]:
            total += (u[i + p + 1] - t) / (u[i + p + 1] - u[i + 1]) * basis(i + 1, p - 1)
        return total

    weights = np.ones(len(curve.control)) if curve.weights is None else curve.weights
    shares = np.array([basis(i, curve.degree) for i in range(len(weights))]) * weights
    return shares @ curve.control / shares.sum()
