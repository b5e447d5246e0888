"""Rule sets as a table."""

import pytest

from holeplacer.errors import InputError
from holeplacer.rules import edge_rule


def test_every_row_has_its_source():
    """No figure without source and status; a rule set's clause is named."""
    for rule in edge_rule.edge_rules():
        assert rule.source
        assert rule.status
        assert rule.edge_of in {"d", "d0"}
        assert rule.spacing_of in {"d", "d0"}
        assert rule.clause or "no source" in rule.source


def test_factor_times_stud_or_hole():
    """AISI counts the stud, EN 1993-1-8 the hole."""
    assert edge_rule.edge_rule("aisi-s100-bolts").edge_mm(6.0, 7.0) == 9.0
    assert edge_rule.edge_rule("en-1993-1-8").edge_mm(6.0, 7.0) == pytest.approx(8.4)


def test_without_a_rule_set_the_ligament_is_left():
    """`ligament-only` asks for no edge distance of its own."""
    assert edge_rule.edge_rule("ligament-only").edge_mm(6.0, 7.0) == 0.0


def test_unknown_rule_set_is_refused():
    """The refusal lists what there is."""
    with pytest.raises(InputError, match="aisi-s100-bolts"):
        edge_rule.edge_rule("hope")
