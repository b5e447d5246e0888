"""The files a verb writes."""

import click
import pytest

from holeplacer.cli import outputs
from holeplacer.documents.dxf_wish import Wish
from holeplacer.errors import ExportError


def test_only_what_was_asked_for_is_a_target(tmp_path):
    """Options that were not given name no file."""
    given = {"report": tmp_path / "r.json", "dxf": None, "units": "mm"}
    assert outputs.targets_of(given, tmp_path / "a.svg") == {"report": tmp_path / "r.json"}


def test_the_source_is_never_a_target(tmp_path):
    """Artwork can't be overwritten, by its own name or by a link to it."""
    source, link = tmp_path / "a.svg", tmp_path / "b.svg"
    source.write_text("<svg/>")
    link.symlink_to(source)
    for name in ("report", "dxf", "csv", "picture", "save"):
        for path in (source, link):
            with pytest.raises(ExportError, match="overwrite"):
                outputs.targets_of({name: path}, source)


def test_two_files_of_one_name_are_refused(tmp_path):
    """Neither would survive the other."""
    given = {"csv": tmp_path / "x", "report": tmp_path / "." / "x"}
    with pytest.raises(click.UsageError, match="--report and --csv name the same file"):
        outputs.targets_of(given, tmp_path / "a.svg")


def test_wishes_for_the_drawing():
    """Version in any case of letters; marks are all or none."""
    given = {"dxf_version": "r2018", "dxf_units": "in", "marks": False}
    assert outputs.wish_of(given) == Wish("R2018", "in", False, False)
