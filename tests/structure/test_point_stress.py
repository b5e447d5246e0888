"""Stress of the beams that standoffs stand on, judged by statics of a straight bar."""

from functools import cache

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.structure import beam, grillage, supports

LENGTH, B, T = 600.0, 20.0, 3.0
METAL = {"elastic_mpa": 210e3, "shear_mpa": 210e3 / 2.6}


@cache
def bar():
    """A straight bar with its axis on y = 0, from 0 to 600."""
    outline = Outline.from_geometry(box(0, -B / 2, LENGTH, B / 2))
    sign = grillage.grillage(outline, medial_axis(outline), thickness_mm=T, **METAL)
    return sign.bodies[0]


def read(held, xy, *, clamped):
    """Bending moment and torque of all gauges, peaks with their gauges, forces."""
    answer = supports.answer(held, xy, clamped=clamped)
    gauges = held.body.gauges
    plain = (gauges.components @ answer.freedoms + gauges.preset).reshape(3, -1)
    return *gauges.points.added(plain, xy, answer.forces), answer.forces


def cut(xy, forces, x, *, behind):
    """Moment and torque at a cut, from all that is on its left."""
    passed = xy[:, 0] < x + (1e-6 if behind else -1e-6)
    pull = forces[passed, 0]
    moment = B * x**2 / 2 - pull @ (x - xy[passed, 0])
    torque = pull @ xy[passed, 1]
    if forces.shape[1] == 3:
        moment += forces[passed, 1].sum()
        torque += forces[passed, 2].sum()
    return moment, torque


@settings(max_examples=25, deadline=None)
@given(
    st.lists(st.floats(15.0, 585.0), min_size=3, max_size=5),
    st.lists(st.floats(-6.0, 6.0), min_size=5, max_size=5),
    st.booleans(),
)
def test_moments_and_torque_are_those_of_statics(places, off, clamped):
    """At every beam's end and on both sides of every standoff they balance what is left of it."""
    xy = np.column_stack([places, off[: len(places)]])
    assume(np.diff(np.sort(xy[:, 0])).min() > 0.5)
    assume(clamped or np.linalg.svd(bar().body.place.rigid_at(xy))[1][-1] > 0.01)
    plain, beside, peaks, forces = read(bar(), xy, clamped=clamped)
    modulus, polar = B * T**2 / 6, beam.torsion_modulus_mm3(np.array([B]), T)[0]
    x = bar().body.gauges.xy[:, 0]
    clear = (x > B / 2) & (x < LENGTH - B / 2) & (np.abs(x[:, None] - xy[:, 0]).min(axis=1) > 1e-3)
    moment, torque = np.array([cut(xy, forces, at, behind=False) for at in x[clear]]).T
    near = {"abs": 2e-3 * np.abs(plain).max()}
    assert plain[0, clear] == pytest.approx(moment / modulus, **near)
    assert np.abs(plain[2, clear]) == pytest.approx(np.abs(torque) / polar, **near)
    sides = [cut(xy, forces, at, behind=behind) for behind in (False, True) for at in xy[:, 0]]
    moment, torque = np.array(sides).T
    wanted = np.sqrt((moment / modulus) ** 2 + 3 * (torque / polar) ** 2)
    # either side of each, whichever way the axis runs
    found, wanted = (np.sort(both.reshape(2, -1), axis=0) for both in (peaks, wanted))
    assert found == pytest.approx(wanted, **near)
    assert np.abs(x[beside] - np.tile(xy[:, 0], 2)).max() <= B / 4 + 1e-6


def test_two_across_from_each_other_do_not_twist():
    """Between two standoffs in one cross-section there is no stretch that they could twist."""
    xy = np.array([(x, y) for x in (103.0, 497.0) for y in (-6.0, 6.0)])
    _, _, peaks, _ = read(bar(), xy, clamped=False)
    assert peaks == pytest.approx(103.0**2 / 2 * B / (B * T**2 / 6), rel=2e-3)
