"""What a plan's sign weighs."""

from dataclasses import replace

import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.evaluation import sign_mass
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan, SheetChoice

OUTLINE = Outline.from_geometry(
    shapely.MultiPolygon([shapely.box(0, 0, 600, 40), shapely.box(0, 100, 200, 140)])
)
PLAN = Plan(ArtworkFile("a.svg", b""))


def test_mass_by_density_and_by_gauge():
    """Area x thickness x density, with the gauge's own weight beside it."""
    found = sign_mass.sign_mass(PLAN, OUTLINE)
    assert found.mass_kg == pytest.approx(32_000 * 1.519e-9 * 7850)
    assert found.nominal_kg == pytest.approx(0.032 * 2.5 * 4.88243, rel=1e-5)
    assert found.centre_mm == pytest.approx((250.0, 45.0))


def test_finish_and_holes_count():
    """Powder adds its coats on both faces; a hole takes its drop from the piece it lies in."""
    plan = replace(
        PLAN,
        sheet=SheetChoice("aluminium", None, 3.0, finish="powder", finish_mm=0.08),
        holes=(Hole(1, 100.0, 20.0, 10.0), Hole(2, 100.0, 500.0)),
    )
    found = sign_mass.sign_mass(plan, OUTLINE)
    assert found.drops_mm2 == pytest.approx(78.54, abs=1e-2)
    assert found.pieces[1].area_mm2 == 8000.0
    assert found.nominal_kg is None
    assert found.finish_kg == pytest.approx(found.area_mm2 * 1e-6 * 0.16e-3 * 1500)
