"""The report."""

import json

import pytest

from holeplacer.documents import report
from holeplacer.evaluation import evaluate
from holeplacer.plan.hole import Hole

KEYS = {
    "version", "caution", "units", "outline", "import", "axis", "rules", "holes", "count",
    "lower_bound", "proven", "unsupported", "findings", "seconds", "sheet", "standoff", "loads",
    "response", "sheet_limits", "divided", "seams", "sections", "sheets", "alternatives",
    "wall", "hardware",
}  # fmt: skip


def told(layout, **more):
    evaluation = evaluate.evaluate(layout.plan, layout.outline, layout.axis)
    return json.loads(report.report_bytes(report.report(layout, evaluation, **more)))


def test_its_form_is_fixed(laid_out):
    """The keys and their kinds are what other programs rely on; version 1."""
    value = told(laid_out(Hole(1, 55.0, -50.0, fixed=True)), seconds={"read": 0.25})
    assert set(value) == KEYS
    assert (value["version"], value["units"]) == (1, "mm")
    assert set(value["outline"]) == {"area_mm2", "perimeter_mm", "bounds_mm", "pieces"}
    assert set(value["outline"]["pieces"][0]) == {"area_mm2", "counters", "bounds_mm"}
    assert set(value["axis"]) == {"length_mm", "tips", "junctions"}
    assert set(value["holes"][0]) == {
        "number", "x_mm", "y_mm", "diameter_mm", "piece", "edge_distance_mm", "ligament_mm",
        "fixed", "drilled",
    }  # fmt: skip
    assert set(value["findings"][0]) == {
        "rule", "where", "x_mm", "y_mm", "value", "limit", "unit", "message", "way_out", "broken",
    }  # fmt: skip
    assert value["seconds"] == {"read": 0.25}


def test_its_figures_are_those_of_the_plan(laid_out):
    """Outline, hole and limits say what the values they come from say."""
    layout = laid_out(Hole(3, 55.0, -50.0, fixed=True))
    value = told(layout)
    outline, hole = value["outline"], value["holes"][0]
    assert outline["area_mm2"] == pytest.approx(layout.outline.area_mm2)
    assert outline["bounds_mm"] == pytest.approx(list(layout.outline.bounds_mm))
    assert [piece["counters"] for piece in outline["pieces"]] == [1, 1]
    assert (hole["number"], hole["piece"], hole["fixed"], hole["drilled"]) == (3, 1, True, False)
    assert hole["edge_distance_mm"] - hole["ligament_mm"] == pytest.approx(7.144 / 2)
    assert value["rules"]["spacing_mm"]["limit"] == 300.0
    limit = value["rules"]["edge_distance_mm"]
    assert limit["limit"] == pytest.approx(9.525)
    assert "stud" in limit["governs"]


def test_all_that_was_read_is_in_it(laid_out):
    """The import account is whole, with places where it has them."""
    account = told(laid_out())["import"]
    assert account["read"] == [{"what": "path", "where": "cut", "count": 2}]
    assert account["mended"] == [
        {"what": "gap joined", "where": "x 1", "count": 1, "x_mm": 1.0, "y_mm": 2.0}
    ]
    assert (account["file"], account["units"], account["units_stated"]) == (
        "two letters.svg", "mm", True,
    )  # fmt: skip


def test_stretches_without_holes_are_unsupported(laid_out):
    """Each stretch out of reach is listed with its reason, which is its finding's."""
    value = told(laid_out(Hole(1, 55.0, -50.0)))
    assert value["unsupported"]
    for stretch in value["unsupported"]:
        assert stretch["length_mm"] > 0
        assert "stroke" in stretch["reason"]
    assert value["count"] == 1


def test_nothing_proposed_is_nothing_proven(laid_out):
    """Without a proposal there is no bound and no proof."""
    value = told(laid_out(Hole(1, 55.0, -50.0)))
    assert (value["lower_bound"], value["proven"]) == (None, None)


def test_it_is_strict_json_whatever_the_figures(laid_out):
    """A way without end, such as that to a hole that is not there, is null and not Infinity."""
    layout = laid_out()
    text = report.report_bytes(
        report.report(layout, evaluate.evaluate(layout.plan, layout.outline, layout.axis))
    )
    value = json.loads(text, parse_constant=lambda name: pytest.fail(name))
    assert any(finding["value"] is None for finding in value["findings"])


def test_where_names_hole_piece_or_stretch(laid_out):
    """A finding of a hole names its number."""
    value = told(laid_out(Hole(9, 79.0, -50.0)))
    places = {
        finding["where"] for finding in value["findings"] if finding["rule"] == "edge_distance"
    }
    assert places == {"hole 9"}


def test_the_caution_is_in_it(laid_out):
    """What the figures are not stands in the file itself."""
    assert any("licensed engineer" in sentence for sentence in told(laid_out())["caution"])
