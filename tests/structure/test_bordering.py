"""Moved standoffs at the border of those that stay."""

import numpy as np
import pytest

from holeplacer.structure import bordering, grillage, supports


@pytest.fixture
def held(ring, metal):
    return grillage.grillage.__wrapped__(ring.outline, ring.axis, **metal).bodies[0]


def places(count):
    turn = 2 * np.pi * np.arange(count) / count
    off = 5 * np.sin(7 * turn)
    return (500 + off)[:, None] * np.column_stack([np.cos(turn), np.sin(turn)])


@pytest.mark.parametrize(("count", "clamped"), [(70, False), (24, True)])
def test_a_drag_gives_what_fresh_answers_give(held, ring, metal, count, clamped):
    """One hole dragged, then another, then two at once: as if solved from scratch each time."""
    xy = places(count)
    supports.answer(held, xy, clamped=clamped)
    solved = []
    for move, index in enumerate((3, 3, 3, 11, 11, (2, 5))):
        xy[np.array(index)] *= 1.0 + 0.004 * (-1) ** move
        answer = supports.answer(held, xy, clamped=clamped)
        solved.append(held.memory.core)
        other = grillage.grillage.__wrapped__(ring.outline, ring.axis, **metal).bodies[0]
        fresh = supports.answer(other, xy, clamped=clamped)
        assert answer.forces == pytest.approx(fresh.forces, abs=1e-7 * np.abs(fresh.forces).max())
        most = np.abs(fresh.freedoms).max()
        assert answer.freedoms == pytest.approx(fresh.freedoms, abs=1e-6 * most)
    assert solved[0] is solved[1] is solved[2]
    assert solved[0] is not None
    assert solved[3] is not solved[2]


def test_nothing_is_bordered_on_other_standoffs(held):
    """Where many have moved, or none was solved before, there is no core."""
    links = tuple(held.restraints(places(70), 1))
    assert bordering.core_of(held.memory, links) is None
    supports.answer(held, places(70), clamped=False)
    other = tuple(held.restraints(1.002 * places(70), 1))
    assert bordering.core_of(held.memory, other) is None
    assert bordering.core_of(held.memory, (*links[:-1], other[-1])) is not None


def test_a_core_that_does_not_hold_is_no_harm(held, monkeypatch):
    """Where those that stay could turn, the answer is that of the whole all the same."""
    xy = np.array([(500.0, 0.0), (-500.0, 0.0), (0.0, 500.0)])
    plain = supports.answer(held, xy, clamped=False)
    line = tuple(held.restraints(xy[:2], 1))
    matrix = bordering.system(line, bordering.all_rows(line), held.body.rigid)
    held.memory.solved = line, matrix
    monkeypatch.setattr(supports, "MANY", 0)
    again = supports.answer(held, xy, clamped=False)
    assert again.forces == pytest.approx(plain.forces, rel=1e-6)
    assert again.freedoms == pytest.approx(plain.freedoms, abs=1e-6 * plain.freedoms.max())


@pytest.mark.parametrize("kinds", [1, 3])
def test_renewed_system_is_the_one_built_anew(held, kinds):
    """Only what moved is reckoned again, and the whole comes out the same."""
    xy = places(12)
    for change in ((), (3,), (3, 7), (0, 1, 2, 3, 4, 5)):
        xy[list(change)] *= 1.003
        links = tuple(held.restraints(xy, kinds))
        rows = bordering.all_rows(links)
        renewed = bordering.renewed(held.memory, links, rows, held.body.rigid)
        anew = bordering.system(links, rows, held.body.rigid)
        assert renewed == pytest.approx(anew, abs=1e-9 * np.abs(anew).max())
        assert held.memory.solved[1] is renewed
