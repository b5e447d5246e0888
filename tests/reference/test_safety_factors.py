"""Safety, resistance and partial factors against their clauses, written down a second time.

Sources: AISI S100-16 J3.3, J4.4, J4.5 (P), F2, J6 (M); ASCE 8 (M); AISC 360-16 J3 (P), J4 (M);
Aluminum Design Manual: 1.65 and 1.95 (P), rest M but for pull-over (P); EN 1993-1-1, -1-3, -1-8
(1.25 P, 1.00 M), EN 1993-1-4, EN 1999-1-1, -1-4 (M), all recommended values.
"""

import pytest

from holeplacer import resources
from holeplacer.resistance import rule_family

AMERICAN = {
    ("aisi-s100", "bending"): (1.67, 0.90),
    ("aisi-s100", "bearing"): (2.50, 0.60),
    ("aisi-s100", "bearing deformation"): (2.22, 0.65),
    ("aisi-s100", "tear-out"): (2.22, 0.65),
    ("aisi-s100", "net section"): (2.22, 0.65),
    ("aisi-s100", "pull-over"): (3.00, 0.50),
    ("aisi-s100", "shear and pull-over"): (2.35, 0.65),
    ("asce-8", "bending"): (1.85, 0.85),
    ("asce-8", "bearing"): (2.50, 0.60),
    ("asce-8", "bearing deformation"): (2.40, 0.65),
    ("asce-8", "tear-out"): (2.40, 0.65),
    ("asce-8", "net section"): (2.40, 0.65),
    ("asce-8", "pull-over"): (3.00, 0.50),
    ("asce-8", "shear and pull-over"): (2.35, 0.65),
    ("aisc-360", "bearing deformation"): (2.00, 0.75),
    ("aisc-360", "tear-out"): (2.00, 0.75),
    ("aisc-360", "net section"): (2.00, 0.75),
    ("aisc-360", "fastener"): (2.00, 0.75),
    ("adm", "bending"): (1.65, 0.90),
    ("adm", "bearing"): (1.95, 0.75),
    ("adm", "tear-out"): (1.95, 0.75),
    ("adm", "net section"): (1.95, 0.75),
    ("adm", "pull-over"): (3.00, 0.50),
    ("adm", "fastener"): (2.34, 0.65),
}
SHEET_STATES = ("bearing", "net section", "pull-over")
EUROPEAN = {
    **{(rules, state): 1.25 for rules in ("en-1993-1-3", "en-1993-1-4") for state in SHEET_STATES},
    **{("en-1999", state): 1.25 for state in (*SHEET_STATES, "fastener")},
    ("en-1993-1-8", "fastener"): 1.25,
    ("en-1993-1-3", "bending"): 1.00,
    ("en-1993-1-3", "tear-out"): 1.00,
    ("en-1993-1-4", "bending"): 1.10,
    ("en-1993-1-4", "tear-out"): 1.10,
    ("en-1999", "bending"): 1.10,
    ("en-1999", "tear-out"): 1.10,
}


@pytest.mark.parametrize("key", AMERICAN, ids="-".join)
def test_american_factors(key):
    """Ω under ASD and φ under LRFD."""
    found = [rule_family.safety_factor(*key, method).value for method in ("asd", "lrfd")]
    assert found == pytest.approx(AMERICAN[key])


@pytest.mark.parametrize("key", EUROPEAN, ids="-".join)
def test_european_factors(key):
    """γM."""
    assert rule_family.safety_factor(*key, "en").value == pytest.approx(EUROPEAN[key])


def test_no_factor_stands_here_or_there_alone():
    """The table holds these factors and no others."""
    rows = {(r["rules"], r["limit_state"], r["method"]) for r in resources.table("safety_factors")}
    american = {(*key, method) for key in AMERICAN for method in ("asd", "lrfd")}
    assert rows == american | {(*key, "en") for key in EUROPEAN}
