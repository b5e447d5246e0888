"""`--sheet-limits`: strip span always, spacing and gauge on request."""

import json

import pytest

_BAR = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="40mm" viewBox="0 0 900 40">'
    '<path d="M0 5H900V35H0Z"/></svg>'
)


@pytest.fixture
def bar(tmp_path):
    art = tmp_path / "bar.svg"
    art.write_text(_BAR)
    return str(art)


def test_only_the_strip_unless_asked(run, bar):
    """One line beside the strength result; without a wind none."""
    said = run("propose", bar, "--pressure", "800Pa")[1]
    assert "Plain strip     spans " in said
    assert "Largest spacing" not in said
    assert "Plain strip" not in run("propose", bar)[1]


def test_both_answers_with_their_report(run, bar, tmp_path):
    """Printed and reported; the exit status is that of the findings."""
    file = tmp_path / "report.json"
    plain = run("propose", bar, "--pressure", "800Pa")
    asked = run("propose", bar, "--pressure", "800Pa", "--sheet-limits", "--report", str(file))
    assert asked[0] == plain[0]
    assert "Largest spacing " in asked[1]
    assert "Thinnest gauge  " in asked[1]
    told = json.loads(file.read_text())["sheet_limits"]
    assert told["governs"]["value"] <= 1.0
