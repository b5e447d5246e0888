"""Least edge distances and spacings against the rule sets' own figures.

Sources: AISI S100 J3/J4 (P), AISC 360-16 Table J3.4 (P), EN 1993-1-8 Table 3.3 (P), EN 1993-1-3
Tables 8.2 (P) and 8.4 (M), Aluminum Design Manual J.3, J.5 (edge of screws P, rest M),
EN 1999-1-1 Table 8.2 (M). P: read as an excerpt; M: from memory, verify.
"""

import pytest

from holeplacer.rules import edge_rule

IN = 25.4


@pytest.mark.parametrize(
    ("name", "stud", "hole", "edge", "spacing"),
    [
        ("aisi-s100-bolts", 0.25 * IN, 9 / 32 * IN, 0.375 * IN, 0.75 * IN),
        ("aisi-s100-screws", 0.25 * IN, 9 / 32 * IN, 0.375 * IN, 0.75 * IN),
        ("aisc-360", 0.5 * IN, 9 / 16 * IN, 0.75 * IN, 4 / 3 * IN),
        ("en-1993-1-8", 20.0, 22.0, 26.4, 52.8),
        ("en-1993-1-3-screws", 6.3, 6.5, 18.9, 18.9),
        ("en-1993-1-3-bolts", 6.0, 6.6, 9.9, 19.8),
        ("adm-bolts", 0.25 * IN, 9 / 32 * IN, 0.375 * IN, 0.625 * IN),
        ("adm-screws", 0.25 * IN, 9 / 32 * IN, 0.375 * IN, 0.625 * IN),
        ("en-1999-1-1", 6.0, 7.0, 8.4, 16.8),
        ("en-1999-1-1-regular", 6.0, 7.0, 14.0, 21.0),
    ],
)
def test_worked_figures(name, stud, hole, edge, spacing):
    """Each rule set gives the figures worked by hand from its clause."""
    rule = edge_rule.edge_rule(name)
    assert rule.edge_mm(stud, hole) == pytest.approx(edge)
    assert rule.spacing_mm(stud, hole) == pytest.approx(spacing, rel=2e-5)


@pytest.mark.parametrize(
    ("bolt", "edge"),
    [
        (0.5 * IN, 0.75 * IN),
        (0.625 * IN, 0.875 * IN),
        (1.0 * IN, 1.25 * IN),
        (1.25 * IN, 1.625 * IN),
        (1.5 * IN, 1.875 * IN),
        (16.0, 22.0),
        (24.0, 30.0),
        (36.0, 46.0),
    ],
)
def test_aisc_edge_table(bolt, edge):
    """The rows of Table J3.4, and 1.25 d over its largest inch bolt."""
    assert edge_rule.edge_rule("aisc-360").edge_mm(bolt, bolt + 1) == pytest.approx(edge)


def test_aisc_below_and_between_rows():
    """Below 1/2 in the smallest row's share, 1.5 d, is kept; between rows the next bolt counts."""
    rule = edge_rule.edge_rule("aisc-360")
    assert rule.edge_mm(0.25 * IN, 7.144) == pytest.approx(0.375 * IN)
    assert rule.edge_mm(20.5, 22.0) == pytest.approx(28.0)


def test_ligament_forms():
    """AISI on a 1/4 in stud in a 9/32 in hole leaves 0.234 in; 1.2 d0 leaves 0.7 d0."""
    hole = 9 / 32 * IN
    aisi = edge_rule.edge_rule("aisi-s100-bolts").edge_mm(0.25 * IN, hole) - hole / 2
    assert aisi == pytest.approx(0.234 * IN, abs=0.02)
    eurocode = edge_rule.edge_rule("en-1993-1-8").edge_mm(0.25 * IN, hole) - hole / 2
    assert eurocode == pytest.approx(0.7 * hole)
