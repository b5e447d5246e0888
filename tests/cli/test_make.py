"""`make`."""

import pytest

from holeplacer.cli import make
from holeplacer.errors import ExportError
from holeplacer.plan import edit, plan_file


def test_all_files_are_made(run, saved_plan, tmp_path):
    """Each kind of file lies where it belongs, and the result says where."""
    folder = tmp_path / "deep" / "out"
    status, out, err = run("make", saved_plan, "--to", folder)
    assert (status, err) == (0, "")
    for path in make.MADE.values():
        assert (folder / path).stat().st_size > 300
        assert str(folder / path) in out


def test_a_plan_with_faults_is_made_and_said_to_have_them(run, saved_plan, tmp_path):
    """The files are written all the same; status 1 and the findings tell what is wrong."""
    plan = tmp_path / "p.holeplan"
    plan_file.save_plan(edit.without_hole(plan_file.load_plan(saved_plan), 1), plan)
    status, out, _ = run("make", plan, "--to", tmp_path / "out")
    assert status == 1
    assert "Rule broken" in out
    assert (tmp_path / "out" / "cut" / "holes.dxf").exists()


def test_a_folder_that_can_not_be_made_is_refused(tmp_path):
    """A file where a folder should be, or a name no system takes, is one sentence."""
    (tmp_path / "file").write_text("")
    for folder in (tmp_path / "file" / "out", tmp_path / "a\0b"):
        with pytest.raises(ExportError, match="can't be made"):
            make.targets_below(folder)
