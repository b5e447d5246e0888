"""What is done to a seam's edges."""

from dataclasses import replace

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import preparation
from holeplacer.units import LengthUnit


def told(thickness, how="square", gap=0.0, **sheet):
    plan = Plan(
        ArtworkFile("a.svg", b""),
        sheet=replace(SheetChoice(), gauge=None, thickness_mm=thickness, **sheet),
        sections=SectionsChoice(preparation=how, root_gap_mm=gap),
    )
    return " / ".join(preparation.notes(plan))


def test_thin_sheet_is_welded_square():
    """As it is cut, and nobody grinds a bevel on to it even where one is wanted."""
    assert "Edges square, as cut" in told(1.5)
    assert "bevel" not in told(1.5)
    assert "thin enough to weld square" in told(1.5, "bevel")


@pytest.mark.parametrize(("thickness", "word"), [(4.8, "weld both"), (9.5, "too thick")])
def test_thick_metal_is_not_welded_through_square(thickness, word):
    """From both sides up to 6 mm; above only bevelled."""
    assert word in told(thickness)
    assert "Grind each edge to 30 degrees (60 between both)" in told(thickness, "bevel")
    assert word not in told(thickness, "bevel")


def test_the_bevel_leaves_a_root_face():
    """Depth and face make up the thickness."""
    assert "3.3 mm deep, a root face of 1.5 mm left" in told(4.8, "bevel")


def test_the_gap_is_said_to_be_taken_off_or_not_to_be_there():
    """Nobody grinds it off a second time."""
    assert "Root gap 1.6 mm: half of it is taken off either section already" in told(3, gap=1.6)
    assert "No root gap" in told(3)


def test_zinc_and_plasma_skin_are_ground_off():
    """Only where they are."""
    assert "zinc" in told(1.5, metal="galvanized")
    assert "zinc" not in told(1.5)
    assert "bright" in told(1.5)
    assert "bright" not in told(1.5, process="waterjet")


def test_lengths_are_shown_as_wanted():
    """In inches for those who work in them."""
    plan = Plan(ArtworkFile("a.svg", b""))
    assert "in thick" in preparation.notes(plan, LengthUnit.INCH)[0]
