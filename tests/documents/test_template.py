"""What a template shows."""

import pytest
import shapely
from shapely.geometry import box

from holeplacer.documents import template as templates
from holeplacer.documents.template import SIMPLIFIED_MM, TemplateWish
from holeplacer.errors import InputError
from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam
from holeplacer.units import LengthUnit
from holeplacer.wall.as_found import Revision
from holeplacer.wall.layer import Layer
from holeplacer.wall.wall import Elevation, Placing, Wall

BAR = box(100.0, 50.0, 1100.0, 90.0)
HOLES = (Hole(2, 900.0, 70.0, 5.0), Hole(1, 200.0, 70.0))


def test_without_a_wall_all_is_counted_from_the_sign_s_lower_left_corner(sign_of):
    """Level line along the lower edge, datum at its left end, plumb lines left, middle, right."""
    shown = templates.template(sign_of(BAR, *HOLES))
    assert shown.level_mm == 50.0
    assert shown.datum_mm == (100.0, 50.0)
    assert shown.plumbs_mm == (100.0, 600.0, 1100.0)
    assert shown.listed(200.0, 70.0) == (100.0, 20.0)
    assert shown.ground_mm is None


def test_the_wall_s_level_line_datum_and_ground_are_taken_over(sign_of):
    """What was decided for the wall is what the paper shows."""
    hung = Placing(up="ground", up_mm=2500.0, level_mm=80.0, datum_mm=(0.0, 10.0))
    wall = Wall(Elevation(4000.0, 5000.0), placing=hung, revisions=(Revision(3, (), "May"),))
    shown = templates.template(sign_of(BAR, *HOLES, wall=wall))
    assert (shown.level_mm, shown.datum_mm) == (80.0, (0.0, 10.0))
    assert shown.ground_mm == pytest.approx(2500.0)
    assert (shown.revision, shown.date) == ("3", "May")


def test_holes_come_in_order_and_say_their_size_and_the_wall_s_drill(sign_of):
    """The drill only where layers tell it; a hole's own diameter before the plan's."""
    plain = templates.template(sign_of(BAR, *HOLES))
    assert [hole.number for hole in plain.holes] == [1, 2]
    assert plain.holes[1].says == ("sign Ø 5 mm",)
    wall = Wall(layers=(Layer("structure", 90.0),))
    drilled = templates.template(sign_of(BAR, *HOLES, wall=wall))
    drill, sign = drilled.holes[0].says
    assert drill == f"drill {drilled.drilling.drill.name}"
    assert sign == "sign Ø 7.14 mm"


def test_name_mass_and_grid_follow_plan_and_wish(sign_of):
    """No clock is read; inches bring an inch grid, an entered grid goes before it."""
    layout = sign_of(BAR, *HOLES)
    shown = templates.template(layout, TemplateWish(revision="B", date="1 May"))
    assert (shown.name, shown.revision, shown.date) == ("Heron & Lantern", "B", "1 May")
    assert (shown.grid_mm, templates.template(layout).date) == (50.0, "")
    assert 0.4 < shown.mass_kg < 0.6
    assert templates.template(layout, TemplateWish(unit=LengthUnit.INCH)).grid_mm == 25.4
    assert templates.template(layout, TemplateWish(grid_mm=30.0)).grid_mm == 30.0


def test_the_paper_reaches_over_metal_symbols_and_a_near_datum(sign_of):
    """A hole outside the metal is on it all the same; a datum far away is not."""
    stray = Hole(3, 1300.0, 70.0)
    left, bottom, right, top = templates.template(sign_of(BAR, stray)).extent_mm
    assert left < 100.0
    assert bottom < 50.0
    assert right > 1300.0 + 3.6
    assert top > 90.0
    far = Wall(placing=Placing(datum_mm=(-5000.0, 0.0)))
    shown = templates.template(sign_of(BAR, wall=far))
    assert shown.extent_mm[0] > 0.0
    assert not shown.shows_datum


def test_edges_on_paper_stray_no_further_than_stated(sign_of, wave):
    """Measured both ways against the cut outline."""
    layout = sign_of(wave(1500.0, vertices=4000))
    shown = templates.template(layout)
    assert shapely.hausdorff_distance(shown.edges, layout.outline.boundary) <= SIMPLIFIED_MM
    assert shown.within_mm >= SIMPLIFIED_MM + layout.plan.reading.tolerance_mm


def test_sections_have_templates_with_the_whole_sign_s_datum(sign_of):
    """Every hole is on one of them; the seam on both."""
    layout = sign_of(BAR, *HOLES, seams=(Seam(600.0, 50.0, 600.0, 90.0),))
    one, two = templates.section_templates(layout)
    assert [hole.number for hole in one.holes] == [1]
    assert [hole.number for hole in two.holes] == [2]
    assert one.datum_mm == two.datum_mm == (100.0, 50.0)
    assert [number for number, _ in one.seams] == [number for number, _ in two.seams] == [1]
    assert one.metal.area + two.metal.area == pytest.approx(BAR.area)
    assert (one.section, two.section) == (1, 2)


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        (TemplateWish(grid_mm=2.0), "grid: 2 mm can't be used"),
        (TemplateWish(overlap_mm=100.0), "overlap"),
        (TemplateWish(roll_mm=100.0), "roll width"),
        (TemplateWish(grid_mm=float("nan")), "grid"),
        (TemplateWish(paper="B5"), "B5"),
    ],
)
def test_a_wish_that_can_not_be_met_is_refused(sign_of, wish, said):
    """One sentence with what can be had."""
    with pytest.raises(InputError, match=said):
        templates.template(sign_of(BAR), wish)
