"""A template's parts as drawn in a window."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from holeplacer.documents import template as templates
from holeplacer.documents import template_drawing
from holeplacer.documents.template import TemplateWish
from holeplacer.paper.display_list import Circle, Line, Path, Text
from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam
from holeplacer.units import LengthUnit


def group(shown, name, window, at=(0.0, 0.0), **more):
    groups = {item.name: item for item in template_drawing.drawn(shown, window, at, **more)}
    return groups[name].items


def edges(shown, window):
    """Cut edges drawn in a window, as lines in sign coordinates."""
    paths = [item for item in group(shown, "edges", window) if isinstance(item, Path) and item.pen]
    lines = []
    for path in paths:
        for run in path.subpaths:
            xy = np.vstack([run.xy, run.xy[:1]]) if run.closed else run.xy
            lines.append(xy + np.array(window[:2]))
    return shapely.MultiLineString(lines)


@settings(max_examples=25)
@given(st.floats(200, 1500), st.floats(60, 400), st.floats(50, 300), st.floats(50, 300))
def test_windows_side_by_side_show_all_edges_and_nothing_else(
    sign_of, wave, wide, high, step_x, step_y
):
    """Lengths add up to the whole, and every bit lies on the cut edge."""
    shown = templates.template(sign_of(wave(wide, high)))
    left, bottom, right, top = shown.extent_mm
    xs, ys = np.arange(left, right, step_x), np.arange(bottom, top, step_y)
    parts = [edges(shown, (x, y, x + step_x, y + step_y)) for x in xs for y in ys]
    assert sum(part.length for part in parts) == pytest.approx(shown.edges.length, rel=1e-6)
    whole = shapely.union_all(parts)
    points = shapely.points(shapely.get_coordinates(whole))
    assert shapely.distance(points, shown.edges).max() < 1e-6


def test_the_grid_is_locked_to_datum_and_level_line(sign_of):
    """Every line is a whole number of steps away; figures say how many."""
    shown = templates.template(sign_of(box(13.0, 7.0, 813.0, 107.0)))
    window = (100.0, 30.0, 300.0, 130.0)
    items = group(shown, "grid", window)
    lines = [item for item in items if isinstance(item, Line)]
    across = sorted(line.x1_mm + 100.0 - 13.0 for line in lines if line.x1_mm == line.x2_mm)
    up = sorted(line.y1_mm + 30.0 - 7.0 for line in lines if line.y1_mm == line.y2_mm)
    assert across == pytest.approx([100.0, 150.0, 200.0, 250.0])
    assert up == pytest.approx([50.0, 100.0])
    assert {"100", "50"} <= {item.text for item in items if isinstance(item, Text)}


def test_inch_grids_are_strong_at_every_foot(sign_of):
    """Figures are in inches and repeat evenly within a foot."""
    assert template_drawing.rhythm(25.4, LengthUnit.INCH) == (12, 2)
    wish = TemplateWish(unit=LengthUnit.INCH)
    shown = templates.template(sign_of(box(0.0, 0.0, 800.0, 100.0)), wish)
    texts = [i.text for i in group(shown, "grid", (-5.0, -5.0, 800.0, 100.0)) if hasattr(i, "text")]
    assert '12"' in texts
    assert '2"' in texts


@pytest.mark.parametrize("step", [5.0, 7.5, 10.0, 25.4, 50.0, 300.0])
def test_figures_never_crowd(step):
    """They are at least as far apart as they are wide, whatever the grid."""
    for unit in LengthUnit:
        strong, every = template_drawing.rhythm(step, unit)
        assert every * step >= 48.0
        assert strong % every == 0 or every % strong == 0


def test_level_line_plumb_lines_datum_and_seams_are_there(sign_of):
    """Each where it belongs, with its name."""
    layout = sign_of(box(0, 0, 600, 60), seams=(Seam(200.0, 0.0, 200.0, 60.0),))
    shown = templates.template(layout)
    window = shown.extent_mm
    lines = [i for i in group(shown, "level", window, window[:2]) if isinstance(i, Line)]
    assert any(line.y1_mm == line.y2_mm == pytest.approx(0.0, abs=1e-9) for line in lines)
    upright = sorted(line.x1_mm for line in lines if line.x1_mm == line.x2_mm)
    assert upright == pytest.approx([0.0, 300.0, 600.0], abs=1e-9)
    (ring,) = [i for i in group(shown, "datum", window, window[:2]) if isinstance(i, Circle)]
    assert (ring.x_mm, ring.y_mm) == pytest.approx((0.0, 0.0), abs=1e-9)
    seam, name = group(shown, "seams", window, window[:2])
    assert (seam.x1_mm, seam.y2_mm) == pytest.approx((200.0, 60.0))
    assert seam.pen.dash_mm
    assert name.text == "seam 1"


def test_a_hole_is_whole_wherever_its_symbol_reaches(sign_of):
    """Ring, cross, number and note, also on the page that its arm only grazes."""
    shown = templates.template(sign_of(box(0, 0, 600, 60), Hole(7, 300.0, 30.0)))
    reach = shown.holes[0].reach_mm
    for window in ((200, 0, 301, 60), (306, 0, 500, 60), (300 + reach - 0.1, 0, 500, 60)):
        items = group(shown, "holes", window, window[:2])
        (ring,) = [item for item in items if isinstance(item, Circle)]
        assert (ring.x_mm, ring.y_mm, ring.radius_mm) == pytest.approx((300.0, 30.0, 3.572))
        crossing = [item for item in items if isinstance(item, Line)]
        assert all((c.x1_mm + c.x2_mm) / 2 == pytest.approx(300.0) for c in crossing)
        assert [item.text for item in items if isinstance(item, Text)] == ["7", "sign Ø 7.14 mm"]
    assert not group(shown, "holes", (300 + reach + 0.1, 0, 500, 60))


@settings(max_examples=25)
@given(st.floats(0.0, 360.0), st.floats(8.0, 40.0))
def test_labels_keep_clear_of_edges_where_they_can(sign_of, turn, half):
    """No other of the four sides would cross less of the cut edge."""
    stroke = shapely.affinity.rotate(box(-200, -half, 200, half), turn, origin=(0, 0))
    shown = templates.template(sign_of(stroke, Hole(12, 0.0, 0.0)))
    label = template_drawing.label_of(shown, shown.holes[0], (-500, -500, 500, 500))
    left = min(line[1] for line in label.lines)
    assert abs(left) > 3.5 or all(abs(line[2]) > 3.5 for line in label.lines)


def test_a_label_stays_in_its_window(sign_of):
    """Beside a window's right edge it stands on the left."""
    shown = templates.template(sign_of(box(0, 0, 600, 60), Hole(7, 300.0, 30.0)))
    label = template_drawing.label_of(shown, shown.holes[0], (200.0, 0.0, 305.0, 60.0))
    assert all(line[1] < 300.0 for line in label.lines)


def test_lengths_are_short():
    """A number of millimetres, or inches with their mark."""
    assert template_drawing.length(350.0, LengthUnit.MM) == "350"
    assert template_drawing.length(38.1, LengthUnit.INCH) == '1 1/2"'
