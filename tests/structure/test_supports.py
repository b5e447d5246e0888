"""Standoffs as restraints, beside a plain solution from scratch."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.sparse import block_array, csc_array
from scipy.sparse.linalg import spsolve

from holeplacer.errors import HoleplacerError
from holeplacer.structure import supports, tributary
from holeplacer.structure.plate_body import plate_body
from holeplacer.structure.stroke_body import stroke_body


@pytest.fixture(scope="module")
def bodies(tee, sheet):
    bits = tributary.bits(tee.polygon)
    return [
        supports.held(build(0, tee.polygon, tee.strip, bits, sheet))
        for build in (stroke_body, plate_body)
    ]


def from_scratch(body, xy, *, clamped):
    """Lagrange multipliers on the whole stiffness, factored anew."""
    kinds = body.attach(xy)[: 3 if clamped else 1]
    rows = csc_array(np.concatenate([kind.sparse().toarray() for kind in kinds]))
    whole = csc_array(block_array([[body.stiffness, rows.T], [rows, None]]))
    solved = spsolve(whole, np.concatenate([body.load, np.zeros(rows.shape[0])]))
    size = len(body.load)
    return solved[:size], solved[size:].reshape(len(kinds), -1).T


@settings(max_examples=12)
@given(
    st.lists(st.floats(0, 600), min_size=2, max_size=4, unique_by=lambda x: round(x / 40)),
    st.floats(-300, -60),
    st.booleans(),
    st.integers(0, 1),
)
def test_answers_are_those_of_a_solution_from_scratch(bodies, on_bar, on_stem, clamped, kind):
    """Movements and reactions agree with the whole system solved at once."""
    held = bodies[kind]
    xy = np.array([*((x, 3.0) for x in on_bar), (299.0, on_stem)])
    answer = supports.answer(held, xy, clamped=clamped)
    freedoms, forces = from_scratch(held.body, xy, clamped=clamped)
    assert answer.forces == pytest.approx(forces, abs=1e-6 * np.abs(forces).max())
    assert answer.freedoms == pytest.approx(freedoms, abs=1e-6 * np.abs(freedoms).max())


@pytest.mark.parametrize("kind", [0, 1])
def test_reactions_balance_the_load(bodies, kind):
    """Forces and moments balance to 1e-12."""
    held = bodies[kind]
    xy = np.array([[40.0, 5.0], [560.0, -6.0], [301.0, -250.0], [310.0, 0.0]])
    forces = supports.answer(held, xy, clamped=False).forces[:, 0]
    lacking = held.body.place.rigid_at(xy).T @ forces - held.body.rigid.T @ held.body.load
    assert np.abs(lacking).max() < 1e-12 * held.body.place.area_mm2


def test_supported_points_do_not_move(bodies):
    """At a standoff the metal stays; clamped, it stays level."""
    xy = np.array([[40.0, 5.0], [560.0, -6.0], [301.0, -250.0]])
    for held in bodies:
        moved = supports.answer(held, xy, clamped=True).freedoms
        for rows in held.body.attach(xy):
            assert np.abs(rows.of(moved)).max() < 1e-9 * np.abs(moved).max()


def test_two_standoffs_in_one_place_share(bodies):
    """Their sum is what one of them would carry."""
    xy = np.array([[40.0, 5.0], [560.0, -6.0], [301.0, -250.0]])
    one = supports.answer(bodies[0], xy, clamped=False).forces[:, 0]
    twice = supports.answer(bodies[0], np.concatenate([xy, xy[:1]]), clamped=False).forces[:, 0]
    assert twice[0] + twice[3] == pytest.approx(one[0], rel=1e-6)


def test_unit_forces_are_forgotten_in_time(bodies, monkeypatch):
    """No more is remembered than allowed, and answers stay the same."""
    held = bodies[0]
    xy = np.array([[40.0, 5.0], [560.0, -6.0], [301.0, -250.0]])
    before = supports.answer(held, xy, clamped=False).forces
    monkeypatch.setattr(supports, "MOST_REMEMBERED", 1)
    supports.answer(held, xy + 1.0, clamped=False)
    assert len(held._known) == 3
    assert supports.answer(held, xy, clamped=False).forces == pytest.approx(before)


def test_a_part_without_stiffness_is_told(bodies):
    """A freedom that nothing holds gets one sentence, not a singular factor."""
    body = bodies[0].body
    loose = body.stiffness.tolil()
    index = np.setdiff1d(np.arange(len(body.load)), body.held)[0]
    loose[index, :] = 0.0
    loose[:, index] = 0.0
    with pytest.raises(HoleplacerError, match="part of it hangs by no metal"):
        supports.held(replace(body, stiffness=csc_array(loose)))
