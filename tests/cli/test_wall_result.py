"""What the command line says of the wall."""

import json

GIVEN = (
    "--wall", "20 x 10 ft", "--at", "centred, ground 8ft", "--studs", "16in from 4in",
    "--wall-layer", "cladding 3/8in: stucco", "--wall-layer", "soft 3/4in: foam",
    "--wall-layer", "structure 3 1/2in: stud",
)  # fmt: skip


def test_nothing_is_said_of_a_wall_nobody_entered(run, bar):
    """No lines about it."""
    _, out, _ = run("propose", bar)
    assert "Wall " not in out
    assert "Fastener" not in out


def test_height_ground_and_fastener_are_said(run, bar, tmp_path):
    """How high, what holes meet, what to drill and screw in, and what to mind; the same as told."""
    report = tmp_path / "r.json"
    _, out, _ = run("propose", bar, *GIVEN, "--report", report)
    told = json.loads(report.read_text())
    assert "the sign's lower edge 2438.4 mm (96 in) above the ground" in out
    assert "Holes meet" in out
    assert f"{told['wall']['drilling']['length']} long" in out
    assert "tighten by turn, not by force" in out
    assert "from memory, verify" in out
    assert any(item["name"] == "sleeve or spacer" for item in told["hardware"])


def test_a_sign_too_long_for_its_wall_is_told(run, bar):
    """How far it reaches beyond."""
    _, out, _ = run("propose", bar, "--wall", "700 x 3000")
    assert "the sign reaches 50 mm" in out


def test_make_writes_the_hardware_list(run, saved_plan, tmp_path):
    """Into the folder that goes to the wall."""
    status, out, _ = run("make", saved_plan, "--to", tmp_path / "out")
    path = tmp_path / "out" / "paper" / "hardware.csv"
    assert status == 0
    assert str(path) in out
    assert "barrel" in path.read_text(encoding="utf-8")
