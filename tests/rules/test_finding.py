"""Findings as values."""

import pytest

from holeplacer.plan import edit
from holeplacer.rules import edge_distance, neighbours, process
from holeplacer.rules.finding import Finding, Place, PlaceKind


def test_a_finding_breaks_its_rule_unless_it_is_a_note():
    """What is not said to be a note counts as broken."""
    place = Place(PlaceKind.HOLE, 3, (1.0, 2.0))
    assert Finding("edge_distance", place, 5.0, 9.5, "too near", "move it").broken
    assert not Finding("process", place, 4.0, 4.8, "mark", "drill it", broken=False).broken


@pytest.mark.parametrize("rule", [edge_distance, process, neighbours])
def test_every_finding_has_rule_place_value_limit_and_way_out(rule, plan, bar, axis):
    """All five parts are filled, and the message holds value and limit."""
    for x, y, diameter in ((100.0, 12.0, None), (103.0, 12.0, 4.0), (200.0, 40.0, None)):
        plan = edit.with_hole_added(plan, x, y, diameter_mm=diameter)
    findings = rule.check(plan, bar, axis)
    assert findings
    for finding in findings:
        assert finding.rule == rule.NAME == rule.__name__.rpartition(".")[2]
        assert finding.place.index in (1, 2, 3)
        assert finding.place.xy_mm[0] in (100.0, 103.0, 200.0)
        assert f"{abs(finding.value):.2f}" in finding.message
        assert finding.unit == "mm"
        assert finding.way_out
        if finding.value > 0:
            assert f"{finding.limit:.2f}" in finding.message
