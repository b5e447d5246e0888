"""Rule families and safety factors."""

from typing import get_args

import pytest

from holeplacer import resources
from holeplacer.errors import InputError
from holeplacer.loads.loading import DESIGN_METHODS
from holeplacer.resistance import rule_family
from holeplacer.sheet.metal import Family, metals

SHEET_STATES = {"bending", "bearing", "tear-out", "net section", "pull-over"}


def test_every_family_has_rules_under_every_method():
    """Four families, three methods, each once."""
    pairs = [(item.family, item.method) for item in rule_family.rule_families()]
    assert sorted(pairs) == sorted((f, m) for f in get_args(Family) for m in DESIGN_METHODS)


def test_every_metal_has_rules():
    """No metal of the table is without."""
    for metal in metals():
        for method in DESIGN_METHODS:
            assert rule_family.rule_family(metal.family, method).title


@pytest.mark.parametrize(
    "item", rule_family.rule_families(), ids=lambda i: f"{i.family}-{i.method}"
)
def test_every_limit_state_of_the_sheet_has_its_factor(item):
    """A family's rules have a factor for each limit state, on the safe side of 1."""
    for state in SHEET_STATES:
        factor = rule_family.safety_factor(item.rules, state, item.method)
        assert factor.usable(100.0) <= 100.0
        assert factor.source


@pytest.mark.parametrize("method", ["asd", "lrfd"])
def test_allowable_is_below_design_strength(method):
    """Allowable strength serves unfactored forces, so that it is 1.4 to 1.7 times smaller."""
    for row in resources.table("safety_factors"):
        if row["method"] != "asd":
            continue
        allowed = rule_family.safety_factor(row["rules"], row["limit_state"], "asd").usable(1.0)
        design = rule_family.safety_factor(row["rules"], row["limit_state"], "lrfd").usable(1.0)
        assert 1.35 <= design / allowed <= 1.7, row


def test_borrowed_rules_are_named():
    """Stainless names ASCE 8, copper says that nothing was published; steel borrows nothing."""
    assert "ASCE 8" in rule_family.rule_family("stainless", "asd").note
    copper = rule_family.rule_family("copper", "lrfd")
    assert copper.analogy
    assert "no published rules" in copper.note
    steel = rule_family.rule_family("steel", "asd")
    assert not steel.analogy
    assert steel.note == ""


def test_a_factor_is_written_as_its_method_has_it():
    """ASD divides by Ω, LRFD multiplies by φ, EN divides by γM."""
    assert rule_family.safety_factor("aisi-s100", "bending", "asd").written("Fy") == "Fy/Ωb"
    lrfd = rule_family.safety_factor("aisi-s100", "bending", "lrfd")
    assert lrfd.written("Fy") == "φb Fy"
    assert lrfd.usable(100.0) == pytest.approx(90.0)
    eurocode = rule_family.safety_factor("en-1993-1-3", "bearing", "en")
    assert eurocode.written("Fb") == "Fb/γM2"
    assert eurocode.usable(100.0) == pytest.approx(80.0)


def test_unknown_rules_are_refused():
    """No family or method that does not exist, no factor that rules do not have."""
    with pytest.raises(InputError, match="no rules for 'wood' by 'asd'; take steel"):
        rule_family.rule_family("wood", "asd")
    with pytest.raises(InputError, match="no rules for 'steel' by 'guess'"):
        rule_family.rule_family("steel", "guess")
    with pytest.raises(InputError, match="adm has no factor for nothing by asd"):
        rule_family.safety_factor("adm", "nothing", "asd")
