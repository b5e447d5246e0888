"""The report's part on limits."""

from dataclasses import fields, replace

import msgspec
import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.documents import rules_report
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, neighbours, process, seam_distance, spacing

PLAN = Plan(ArtworkFile("a.svg", b""))


def test_every_limit_is_the_one_its_rule_holds_to():
    """The figures are the rules' own, each with what it comes from."""
    told = rules_report.rules_report(PLAN)
    assert (told.rule_set, told.hole_mm) == (PLAN.limits.rule_set, PLAN.standoff.hole_mm)
    for name, rule in (
        ("edge_distance_mm", edge_distance),
        ("neighbours_mm", neighbours),
        ("seam_distance_mm", seam_distance),
        ("process_hole_mm", process),
        ("spacing_mm", spacing),
    ):
        assert getattr(told, name).limit == rule.limit(PLAN)
    assert told.ligament_mm.limit == pytest.approx(told.edge_distance_mm.limit - told.hole_mm / 2)
    held = [getattr(told, f.name) for f in msgspec.structs.fields(told)]
    limits = [item for item in held if isinstance(item, rules_report.LimitReport)]
    assert len(limits) == 8
    assert all(item.governs for item in limits)


def test_every_limit_entered_shows():
    """A limit of the plan that is changed changes the report."""
    before = rules_report.rules_report(PLAN)
    for field in fields(PLAN.limits):
        if field.name in ("rule_set", "ligament_mm", "cap_overhang_mm"):
            continue
        changed = replace(PLAN, limits=replace(PLAN.limits, **{field.name: 77.0}))
        assert rules_report.rules_report(changed) != before
