"""The whole job through the command line, each run a process of its own."""

import csv
import itertools
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import ezdxf
import pytest

from holeplacer import resources
from holeplacer.plan import edit, plan_file

DEMO = resources.resource_path("demo", "thistledown.svg")

SQUARE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="60mm" viewBox="0 0 800 60">'
    '<path d="M0,0H800V60H0Z"/></svg>'
)
"""A bar 800 mm long and 60 mm high: easy to hold by every rule."""

UNITLESS = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\n0\n10\n0\n20\n0\n40\n9\n0\nENDSEC\n0\nEOF\n"


def holeplacer(*arguments, **more):
    """Run the program; returns status, standard output and standard error."""
    environment = {key: value for key, value in os.environ.items() if key not in DISPLAYS}
    done = subprocess.run(
        [sys.executable, "-m", "holeplacer", *map(str, arguments)],
        capture_output=True,
        text=True,
        timeout=120,
        env=environment | more.pop("env", {}),
        **more,
    )
    assert "Traceback" not in done.stderr
    return done.returncode, done.stdout, done.stderr


DISPLAYS = ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM")


@pytest.fixture
def bar(tmp_path):
    path = tmp_path / "bar.svg"
    path.write_text(SQUARE)
    return path


@pytest.fixture(scope="module")
def job(tmp_path_factory):
    """The bar, proposed once with every file written."""
    folder = tmp_path_factory.mktemp("job")
    (folder / "bar.svg").write_text(SQUARE)
    names = {"report": "r.json", "dxf": "c.dxf", "csv": "h.csv", "picture": "p.svg"}
    names |= {"save": "b.holeplan"}
    flags = [part for name, file in names.items() for part in (f"--{name}", folder / file)]
    status, out, err = holeplacer("propose", folder / "bar.svg", *flags)
    assert (status, err) == (0, "")
    return folder, out


def test_propose_writes_every_file_and_says_where(job):
    """Drawing, schedule, picture, report and plan agree on number and place of the holes."""
    folder, out = job
    report = json.loads((folder / "r.json").read_text())
    assert report["proven"]
    assert report["count"] == report["lower_bound"] == len(report["holes"])
    circles = list(ezdxf.readfile(folder / "c.dxf").modelspace().query("CIRCLE[layer=='HOLES']"))
    lines = (folder / "h.csv").read_text(encoding="utf-8").splitlines()
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    plan = plan_file.load_plan(folder / "b.holeplan")
    for hole, circle, row, planned in zip(report["holes"], circles, rows, plan.holes, strict=True):
        assert tuple(circle.dxf.center.vec2) == (hole["x_mm"], hole["y_mm"])
        assert (planned.x_mm, planned.y_mm) == (hole["x_mm"], hole["y_mm"])
        assert float(row["x_mm"]) == pytest.approx(hole["x_mm"], abs=0.005)
    assert (folder / "p.svg").read_text().count("<circle") == 2 * report["count"]
    for name in ("r.json", "c.dxf", "h.csv", "p.svg", "b.holeplan"):
        assert str(folder / name) in out
    assert "proven" in out
    assert "licensed engineer" in out
    assert set(report["seconds"]) >= {"read", "axis", "place", "check"}


def test_every_hole_keeps_the_rules_by_brute_force(job):
    """On the bar, edge distance and spacing are plain arithmetic."""
    holes = sorted(hole["x_mm"] for hole in json.loads((job[0] / "r.json").read_text())["holes"])
    assert holes[0] <= 150
    assert holes[-1] >= 650
    assert max(b - a for a, b in itertools.pairwise(holes)) <= 300


def test_check_of_a_spoilt_plan_ends_with_1(job, tmp_path):
    """A hole moved too near the edge is found, named, and reported."""
    plan = plan_file.load_plan(job[0] / "b.holeplan")
    spoilt, report = tmp_path / "spoilt.holeplan", tmp_path / "r.json"
    plan_file.save_plan(edit.with_hole_moved(plan, 1, plan.holes[0].x_mm, 5.0), spoilt)
    status, out, err = holeplacer("check", spoilt, "--report", report)
    assert (status, err) == (1, "")
    assert "Rule broken [edge_distance] Hole 1" in out
    assert json.loads(report.read_text())["findings"][0]["where"] == "hole 1"


@pytest.fixture(scope="module")
def windy_job(tmp_path_factory):
    """Status, output, report and plan of the demo sign proposed for a wind of 40 psf."""
    folder = tmp_path_factory.mktemp("windy")
    paths = {"report": folder / "r.json", "save": folder / "sign.holeplan"}
    options = [word for name, path in paths.items() for word in (f"--{name}", path)]
    status, out, _ = holeplacer(
        *("propose", DEMO, "--metal", "steel", "--gauge", 16, "--pressure", "40 psf"),
        *("--deflection-limit", "6mm", *options),
    )
    return status, out, json.loads(paths["report"].read_text(encoding="utf-8")), paths["save"]


def test_a_wind_is_borne_and_told(windy_job):
    """With a wind the holes bear it; wind, deflection and most used resistance are printed."""
    status, out, told, _ = windy_job
    assert status == 0
    assert "40 psf" in out
    assert "Deflection" in out
    assert "Most used" in out
    assert "not an approval" in out
    assert told["count"] >= told["lower_bound"]
    assert told["response"]["cases"][0]["max_deflection_mm"] <= 6.0


def test_reactions_add_up_to_pressure_times_area(windy_job):
    """Pulls on all studs are pressure x area of the sign, one for each hole, both ways."""
    _, _, told, _ = windy_job
    cases = {case["name"]: case for case in told["response"]["cases"]}
    load_n = 40 * 47.88025898033584e-6 * told["outline"]["area_mm2"]
    for name, sign in (("pressure out", 1), ("pressure in", -1)):
        reactions = cases[name]["reactions_n"]
        assert len(reactions) == told["count"]
        assert sum(reactions) == pytest.approx(sign * load_n, rel=1e-9)


def test_every_utilisation_is_demand_over_resistance(windy_job):
    """Each names check, hole and source, and is the quotient of the figures beside it."""
    _, _, told, _ = windy_job
    numbers = {hole["number"] for hole in told["holes"]}
    entries = told["response"]["utilisation"]
    assert len(entries) > 5 * len(numbers)
    for entry in entries:
        assert entry["check"]
        assert entry["source"]
        assert entry["hole"] is None or entry["hole"] in numbers
        if entry["value"] is not None:
            assert entry["value"] == pytest.approx(entry["demand"] / entry["resistance"])
            assert entry["value"] <= 1


def test_check_under_more_wind_ends_with_1(windy_job):
    """The saved plan passes under its own wind and fails under a far stronger one."""
    *_, plan = windy_job
    assert holeplacer("check", plan)[0] == 0
    status, out, _ = holeplacer("check", plan, "--pressure", "10kPa")
    assert status == 1
    assert "Rule broken [strength]" in out


@pytest.mark.parametrize(
    ("options", "says"),
    [
        (("--pressure", "-5psf"), "negative"),
        (("--thickness", "0", "--pressure", "1kPa"), "more than 0"),
        (("--wind", "asce7-22"), "speed"),
        (
            ("--wind", "asce7-22", "--wind-speed", "115mph", "--building-height", "70'"),
            "60 ft",
        ),
    ],
)
def test_loads_that_can_not_be_meant_end_with_2(bar, options, says):
    """One sentence, whatever is wrong with a load."""
    status, out, err = holeplacer("propose", bar, *options)
    assert (status, out) == (2, "")
    assert says in err
    assert len(err.splitlines()) == 1


def test_make_writes_the_folder(job, tmp_path):
    """All that goes out lies in the folder; what lay there before is replaced."""
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "report.json").write_text("old")
    status, out, err = holeplacer("make", job[0] / "b.holeplan", "--to", tmp_path / "out")
    assert (status, err) == (0, "")
    assert json.loads((tmp_path / "out" / "report.json").read_text())["count"] > 0
    found = sorted(str(p.relative_to(tmp_path / "out")) for p in (tmp_path / "out").rglob("*.*"))
    papers = ("hardware.csv", "template-letter.pdf", "template-roll.pdf", "template.dxf",
              "template.svg")  # fmt: skip
    listed = ["cut/holes.dxf", "hole-schedule.csv", "picture.svg", "report.json"]
    assert found == sorted([*listed, *(f"paper/{name}" for name in papers)])
    assert str(tmp_path / "out" / "cut" / "holes.dxf") in out


def test_show_prints_the_facts(bar):
    """Size in both units, pieces, strokes, thinnest stroke, what was read."""
    status, out, err = holeplacer("show", bar, "--width", "6ft")
    assert (status, err) == (0, "")
    for words in ("1828.8 mm × 137.2 mm", "72 in", "Pieces", "Thinnest", "137.2 mm", "  path"):
        assert words in out


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["propose", "missing.svg"], "no such file"),
        (["propose", "bar.svg", "--width", "wide"], "--width"),
        (["check", "bar.svg"], "not a plan"),
        (["bar.svg"], "no display"),
    ],
)
def test_what_can_not_be_used_ends_with_2_and_one_sentence(bar, arguments, says):
    """Input, value, target, plan, display: whatever is wrong is one line on standard error."""
    status, out, err = holeplacer(*arguments, cwd=bar.parent)
    assert (status, out) == (2, "")
    assert err.count("\n") == 1
    assert says in err
    assert bar.read_text() == SQUARE


def test_propose_and_check_leave_no_qt_behind(job):
    """The verbs, run for real in one process, load no part of Qt."""
    program = (
        "import sys; from holeplacer import __main__\n"
        "jobs = [['propose', sys.argv[1]], ['show', sys.argv[1]], ['check', sys.argv[2]]]\n"
        "codes = [__main__.main(job) for job in jobs]\n"
        "print(codes, [name for name in sys.modules if 'PySide' in name or 'shiboken' in name])\n"
    )
    paths = [job[0] / "bar.svg", job[0] / "b.holeplan"]
    done = subprocess.run([sys.executable, "-c", program, *paths], capture_output=True, text=True)
    assert done.stdout.endswith("[0, 0, 0] []\n")


def test_without_a_display_the_demo_is_done(tmp_path):
    """No argument and no display: the main job on the demo sign, with the files it says."""
    status, out, err = holeplacer(env={"TMPDIR": str(tmp_path)})
    assert status == 0
    assert "no display" in err
    names = {path.name for path in tmp_path.rglob("*.*")}
    assert {"holes.dxf", "hole-schedule.csv", "picture.svg", "report.json"} <= names
    assert str(next(tmp_path.rglob("holes.dxf"))) in out


def test_a_closed_pipe_is_no_error():
    """A reader that takes one line and goes leaves no complaint behind."""
    command = f"{sys.executable} -m holeplacer propose --help | head -1"
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True)
    assert done.stdout.startswith("Usage: holeplacer propose")
    assert done.stderr == ""


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs /dev/full")
def test_a_full_disk_under_the_output_is_said(bar):
    """When the result can't be printed, one sentence says so."""
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "holeplacer", "show", bar],
            stdout=full, stderr=subprocess.PIPE, text=True,
        )  # fmt: skip
    assert done.returncode == 2
    assert done.stderr == "The result can't be printed: no space left on device.\n"


def test_the_interrupt_key_stops_in_one_word(tmp_path):
    """Interrupted in the middle of its work, the program says so and leaves no file."""
    pipe = tmp_path / "steps"
    os.mkfifo(pipe)
    program = (
        "import signal, sys, time; from holeplacer import __main__\n"
        # Whoever runs the tests in the background has the key ignored, and its children too.
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "from holeplacer.artwork import source\n"
        "def wait(path): open(sys.argv[1], 'w').close(); time.sleep(60)\n"
        "source.load_file = wait\n"
        "sys.exit(__main__.main(['propose', sys.argv[2], '--dxf', sys.argv[3]]))\n"
    )
    out = tmp_path / "c.dxf"
    process = subprocess.Popen(
        [sys.executable, "-c", program, pipe, DEMO, out], stderr=subprocess.PIPE, text=True
    )
    pipe.open().close()
    time.sleep(0.1)
    process.send_signal(signal.SIGINT)
    assert process.communicate(timeout=20)[1] == "Stopped.\n"
    assert process.returncode == 130
    assert not out.exists()


def test_progress_is_for_terminals_only(bar):
    """On a terminal the steps are shown and wiped; in a file nothing of them stands."""
    command = [sys.executable, "-m", "holeplacer", "propose", str(bar)]
    main, helper = os.openpty()
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=helper, text=True)
    os.close(helper)
    shown = os.read(main, 100_000).decode()
    os.close(main)
    assert done.returncode == 0
    assert "placing holes" in shown
    assert shown.endswith("\r")
