"""From a file to a layout."""

import io
import sys

import pytest

from holeplacer.cli import job
from holeplacer.cli.progress import Progress
from holeplacer.errors import InputError, PlanFileError


@pytest.mark.parametrize(
    ("name", "content", "plan"),
    [
        ("a.holeplan", b"anything", True),
        ("a.HOLEPLAN", b"", True),
        ("copy.json", b'\n {"format"', True),
        ("a.svg", b"<svg/>", False),
        ("a.dxf", b"0\nSECTION", False),
    ],
)
def test_plans_are_told_from_artwork(tmp_path, name, content, plan):
    """By the suffix, or by how the file begins."""
    path = tmp_path / name
    path.write_bytes(content)
    assert job.is_plan(path) is plan


def test_what_is_no_file_is_no_plan(tmp_path):
    """A folder, a missing file and an impossible name are left to the reader of artwork."""
    for path in (tmp_path, tmp_path / "missing", tmp_path / "a\0b"):
        assert job.is_plan(path) is False


def test_a_damaged_plan_is_not_taken_for_artwork(tmp_path):
    """What begins like a plan is refused as a plan."""
    (tmp_path / "x").write_bytes(b"{")
    with pytest.raises(PlanFileError):
        job.opened(tmp_path / "x")


def test_steps_are_timed_by_name(bar, given_nothing):
    """Each step of laying out and checking has its seconds."""
    steps = job.Steps(Progress())
    layout = job.laid_out(job.opened(bar), given_nothing, steps)
    job.evaluated(layout, steps)
    assert list(steps.seconds) == ["read", "change", "axis", "check"]
    assert all(seconds >= 0 for seconds in steps.seconds.values())


def test_a_terminal_sees_the_steps(bar, given_nothing, monkeypatch):
    """Reading and finding strokes are named while they are done."""
    monkeypatch.setattr(sys, "stderr", io.StringIO())
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    with Progress() as progress:
        job.laid_out(job.opened(bar), given_nothing, job.Steps(progress))
    assert "reading the artwork" in sys.stderr.getvalue()
    assert "finding the strokes" in sys.stderr.getvalue()


def test_a_new_size_carries_the_holes_along(saved_plan, given_nothing):
    """Holes of a plan stay where they are on the lettering when it is read at another size."""
    layout = job.laid_out(
        job.opened(saved_plan), given_nothing | {"width": 1600.0}, job.Steps(Progress())
    )
    assert layout.outline.bounds_mm[2] == pytest.approx(1600)
    assert [hole.x_mm for hole in layout.plan.holes] == pytest.approx([200, 800, 1400])


def test_impossible_figures_are_refused(bar, given_nothing):
    """A hole of a kilometre can't be meant."""
    with pytest.raises(InputError, match="possible"):
        job.laid_out(job.opened(bar), given_nothing | {"hole": 1e6}, job.Steps(Progress()))
