"""The hole schedule."""

import csv
import io
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from holeplacer.documents import hole_schedule
from holeplacer.evaluation import evaluate
from holeplacer.plan import edit
from holeplacer.plan.hole import Hole


def table(layout):
    evaluation = evaluate.evaluate(layout.plan, layout.outline, layout.axis)
    text = hole_schedule.hole_schedule(layout, evaluation).decode("utf-8")
    lines = text.split("\r\n")
    notes = [line for line in lines if line.startswith("#")]
    return notes, list(csv.DictReader(io.StringIO("\n".join(lines[len(notes) :]))))


def test_each_hole_is_measured_from_the_lower_left_corner(laid_out):
    """Distances from the datum, the artwork's own coordinates, and the metal around it."""
    layout = laid_out(Hole(2, 255.0, -50.0, diameter_mm=3.0), Hole(1, 55.0, -50.0))
    _, (one, two) = table(layout)
    left, bottom, _, _ = layout.outline.bounds_mm
    assert (one["number"], two["number"]) == ("1", "2")
    assert float(one["x_mm"]) == pytest.approx(55.0 - left, abs=0.005)
    assert float(one["y_mm"]) == pytest.approx(-50.0 - bottom, abs=0.005)
    assert (one["artwork_x_mm"], one["artwork_y_mm"]) == ("55.0000", "-50.0000")
    edge = layout.outline.edge_distance((55.0, -50.0))[0]
    assert float(one["edge_distance_mm"]) == pytest.approx(edge, abs=0.005)
    assert float(one["ligament_mm"]) == pytest.approx(edge - 7.144 / 2, abs=0.005)
    assert (one["piece"], two["piece"]) == ("1", "2")
    assert (one["made_by"], two["made_by"]) == ("cut", "drill")


def test_a_hole_outside_the_metal_says_so(laid_out):
    """Its piece is `outside` and its edge distance negative."""
    _, (one,) = table(laid_out(Hole(1, 0.0, -50.0)))
    assert one["piece"] == "outside"
    assert float(one["edge_distance_mm"]) < 0


def test_notes_state_datum_units_and_caution(laid_out):
    """Whoever holds only this list knows where it is measured from and what it is not."""
    notes, rows = table(laid_out())
    assert rows == []
    text = " ".join(notes)
    for word in ("lower left", "1/32", "stimates", "ocal code", "licensed engineer", "two letters"):
        assert word in text


def test_a_file_name_can_not_break_the_table(laid_out):
    """A line break in the artwork's name stays within its note."""
    layout = laid_out()
    artwork = replace(layout.plan.artwork, name="a\r\n1,2,3\n\udcff")
    notes, rows = table(replace(layout, plan=replace(layout.plan, artwork=artwork)))
    assert (len(notes), rows) == (5, [])


@given(st.floats(-5000, 5000))
def test_inches_are_within_a_sixty_fourth(mm):
    """Whole inches and a fraction in lowest terms, never off by more than half of 1/32."""
    sign, text = (
        (-1, hole_schedule.tape_inches(mm)[1:]) if mm < -0.4 else (1, hole_schedule.tape_inches(mm))
    )
    whole, _, part = text.rpartition(" ")
    over, _, under = part.partition("/")
    value = float(whole or 0) + float(over) / float(under or 1)
    assert abs(sign * value * 25.4 - mm) <= 25.4 / 64 + 1e-9
    assert int(under or 1) in (1, 2, 4, 8, 16, 32)


def test_a_moved_hole_moves_in_the_table(laid_out):
    """The table shows the plan it is made for."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    moved = replace(layout, plan=edit.with_hole_moved(layout.plan, 1, 56.0, -50.0))
    assert float(table(moved)[1][0]["x_mm"]) == float(table(layout)[1][0]["x_mm"]) + 1
