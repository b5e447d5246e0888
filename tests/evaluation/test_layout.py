"""Laying out a plan, and taking over what a change does not touch."""

from dataclasses import replace

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.errors import ArtworkError, InputError
from holeplacer.evaluation import layout
from holeplacer.plan import edit
from holeplacer.plan.hole import Boss
from holeplacer.plan.plan import Plan

SVG = b"""<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="60mm" viewBox="0 0 300 60">
<path fill-rule="evenodd" d="M0 0H200V60H0Z M90 27H110V33H90Z"/>
<path d="M208 0H300V60H208Z"/></svg>"""


@pytest.fixture(scope="module")
def laid_out():
    return layout.lay_out(Plan(ArtworkFile("plate.svg", SVG)))


def test_without_changes_the_cut_outline_is_the_artworks(laid_out):
    """Nothing is recomputed or altered where no offset and no boss is asked for."""
    assert laid_out.outline is laid_out.artwork.outline
    assert laid_out.changes == ()
    assert [piece.counters for piece in laid_out.outline.pieces] == [1, 0]
    assert laid_out.outline.bounds_mm == pytest.approx((0, 0, 300, 60), abs=1e-6)


def test_moving_a_hole_touches_nothing(laid_out):
    """Artwork, outline and axis are the very same values."""
    steps = []
    again = layout.lay_out(edit.with_hole_added(laid_out.plan, 20, 20), laid_out, steps.append)
    assert again.artwork is laid_out.artwork
    assert again.outline is laid_out.outline
    assert again.axis is laid_out.axis
    assert again.plan.holes
    assert steps == []


def test_an_offset_reads_nothing_anew(laid_out):
    """The artwork is taken over; outline and axis are new, and go back when it is undone."""
    steps = []
    fatter = layout.lay_out(edit.with_offset(laid_out.plan, 2.0), laid_out, steps.append)
    assert fatter.artwork is laid_out.artwork
    assert fatter.outline.edge_distance((20, 30))[0] == pytest.approx(22, abs=1e-6)
    assert steps == ["change", "axis"]
    back = layout.lay_out(laid_out.plan, fatter)
    assert back.outline is laid_out.artwork.outline


def test_another_reading_reads_anew(laid_out):
    """A new width changes everything."""
    wide = edit.with_reading(laid_out.plan, ReadOptions(width_mm=600.0))
    steps = []
    found = layout.lay_out(wide, laid_out, steps.append)
    assert found.outline.bounds_mm == pytest.approx((0, 0, 600, 120), abs=1e-6)
    assert steps[0] == "read"


def test_an_equal_plan_from_elsewhere_takes_over_too(laid_out):
    """Values count, not identities: a plan opened anew is not read twice."""
    twin = Plan(ArtworkFile("plate.svg", bytes(bytearray(SVG))))
    assert layout.lay_out(twin, laid_out).artwork is laid_out.artwork


def test_bosses_come_after_the_offset(laid_out):
    """A boss has its radius on the outline that is cut."""
    plan = edit.with_boss(edit.with_offset(laid_out.plan, 1.0), Boss(20.0, 55.0, 12.0, 6.0))
    found = layout.lay_out(plan, laid_out)
    assert found.outline.edge_distance((20, 55))[0] >= 12.0 - 1e-9
    assert found.outline.bounds_mm[3] == pytest.approx(67, abs=0.02)


def test_what_an_offset_does_besides_is_told(laid_out):
    """A counter that closes and pieces that grow together are entries with their place."""
    found = layout.lay_out(edit.with_offset(laid_out.plan, 4.5), laid_out)
    assert {entry.what for entry in found.changes} == {"counter closed", "pieces joined"}
    assert all("4.5 mm" in entry.where and entry.xy_mm for entry in found.changes)


def test_a_boss_that_would_bridge_is_left_out_and_told(laid_out):
    """The sign stays as it is, and the account says why."""
    plan = replace(laid_out.plan, bosses=(Boss(195.0, 30.0, 20.0, 5.0), Boss(20.0, 55.0, 9.0, 5.0)))
    found = layout.lay_out(plan, laid_out)
    (entry,) = found.changes
    assert entry.what == "boss left out"
    assert "next piece" in entry.where
    assert entry.xy_mm == (195.0, 30.0)
    assert found.outline.edge_distance((20, 55))[0] >= 9.0 - 1e-9


def test_no_metal_left_is_an_error(laid_out):
    """An offset that eats the sign is refused."""
    with pytest.raises(InputError, match="no metal"):
        layout.lay_out(edit.with_offset(laid_out.plan, -40.0), laid_out)


def test_unreadable_artwork_is_an_error():
    """What reading refuses comes through as it is."""
    with pytest.raises(ArtworkError, match=r"sign\.svg"):
        layout.lay_out(Plan(ArtworkFile("sign.svg", b"no drawing")))
