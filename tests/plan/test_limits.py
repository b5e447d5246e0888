"""Default limits."""

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_demand, edge_rule


def test_default_rule_set_is_in_the_table():
    """A new plan is held to a rule set that exists."""
    assert edge_rule.edge_rule(Limits().rule_set).source


def test_by_default_the_rule_set_governs_not_the_looks():
    """On a new plan the published factor asks for most metal; the cap asks for least."""
    parts = edge_demand.demands(Plan(ArtworkFile("a.dxf", b"")))
    assert max(parts, key=lambda part: part.mm).name == "rule_set"
    assert min(parts, key=lambda part: part.mm).name == "cap"
