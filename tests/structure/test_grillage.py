"""The whole sign, built once."""

import math

import pytest

from holeplacer.errors import InputError
from holeplacer.structure import grillage


def test_each_piece_is_reckoned_as_what_it_is(drop, metal):
    """A lean stroke is a row of beams, a dot a plate."""
    sign = grillage.grillage(drop.outline, drop.axis, **metal)
    assert sign.models == ("strokes", "plate")
    assert [held.body.piece for held in sign.bodies] == [0, 1]


def test_a_model_can_be_asked_for(bar, metal):
    """For comparison every piece can be reckoned as a plate."""
    assert grillage.grillage(bar.outline, bar.axis, **metal, model="plate").models == ("plate",)


def test_stations_reach_along_every_branch(tee, metal):
    """Ways begin at nothing and end at the branch's length, and can't be changed."""
    sign = grillage.grillage(tee.outline, tee.axis, **metal)
    for branch, ways in zip(tee.axis.branches, sign.ways, strict=True):
        assert ways[0] == 0.0
        assert ways[-1] == branch.length_mm
        assert not ways.flags.writeable


def test_built_once(bar, metal):
    """The same outline, axis and sheet are the same value."""
    assert grillage.grillage(bar.outline, bar.axis, **metal) is grillage.grillage(
        bar.outline, bar.axis, **metal
    )


@pytest.mark.parametrize("thickness", [0.0, -1.0, math.nan, math.inf])
def test_no_sheet_is_refused(bar, metal, thickness):
    """A sheet without thickness gets one clear sentence."""
    with pytest.raises(InputError, match="the sheet's thickness must be more than zero"):
        grillage.grillage(bar.outline, bar.axis, **{**metal, "thickness_mm": thickness})
