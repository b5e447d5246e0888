"""Results in lines."""

from dataclasses import replace

from holeplacer.cli import result
from holeplacer.documents.report import UnsupportedReport
from holeplacer.placement.propose import Proposal
from holeplacer.rules.finding import Finding, Place, PlaceKind


def finding(rule, broken, way_out="move it"):
    place = Place(PlaceKind.HOLE, 1, (0.0, 0.0))
    return Finding(rule, place, 1.0, 2.0, "It is so.", way_out, broken=broken)


def proposal(count, bound, unheld=()):
    return Proposal((None,) * count, count, bound, count == bound, (), unheld, 1.0, 0.1)


def test_broken_rules_come_before_notes():
    """First what must be cured, then what is good to know; each with its rule's name."""
    lines = list(result.findings([finding("process", False, ""), finding("spacing", True)]))
    assert lines == [
        "Rule broken [spacing] It is so.", "  Way out: move it", "Note [process] It is so.",
    ]  # fmt: skip


def test_a_long_list_is_cut():
    """A dozen findings are shown, the rest counted."""
    lines = list(result.findings([finding("spacing", True, "")] * 40))
    assert len(lines) == 13
    assert "28 more" in lines[-1]


def test_unsupported_stretches_are_summed():
    """One line with the whole length and the number of places."""
    stretches = [UnsupportedReport(0.0, 0.0, 12.7, "thin"), UnsupportedReport(9.0, 9.0, 12.7, "")]
    assert list(result.unsupported(stretches)) == [
        "Unsupported     25.4 mm (1 in) of stroke in 2 places"
    ]
    assert list(result.unsupported([])) == []


def test_proof_is_claimed_only_where_there_is_one():
    """Proven; proven for what can be held; or count and bound apart."""
    assert result._count(proposal(3, 3)) == "3, proven: no fewer can satisfy the rules"
    assert "the metal" in result._count(proposal(3, 3, unheld=(0,)))
    assert "at least 3 are needed" in result._count(proposal(4, 3))


def test_a_number_too_small_is_not_called_enough():
    """With fewer holes than the limits take, that is what is said; likewise with none at all."""
    loose = replace(proposal(4, 3), tightness=1.2)
    assert result._count(loose) == "4, too few to keep the limits, each placed where it helps most"
    assert "nowhere wide enough" in result._count(proposal(0, 0))
