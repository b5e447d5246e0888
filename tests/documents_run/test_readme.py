"""What README.md and DEVELOPERS.md tell people to type, run; where they point, looked up."""

import doctest
import re
import shlex
import shutil
from pathlib import Path

import pytest

from holeplacer import units
from holeplacer.cli import commands
from holeplacer.resources import resource_path

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def test_the_command_line_in_the_readme_works(tmp_path, monkeypatch):
    """Every command shown, one after the other, ends with 0 and leaves what it promises."""
    shutil.copy(resource_path("demo", "thistledown.svg"), tmp_path / "artwork.svg")
    monkeypatch.chdir(tmp_path)
    lines = re.findall(r"^holeplacer +(.+?)(?:#.*)?$", README, re.MULTILINE)
    verbs = [shlex.split(line)[0] for line in lines]
    assert verbs == [
        "show", "propose", "check", "make", "propose", "propose", "check", "propose", "make",
    ]  # fmt: skip
    for line in lines:
        assert commands.run(shlex.split(line)) == 0, line
    assert (tmp_path / "holes.dxf").stat().st_size > 10_000
    assert (tmp_path / "long" / "cut" / "sheet-1.dxf").stat().st_size > 10_000
    assert sorted(path.suffix for path in (tmp_path / "out").rglob("*.*")) != []


@pytest.mark.parametrize("text", [README, DEVELOPERS], ids=["README", "DEVELOPERS"])
def test_paths_that_are_named_exist(text):
    """A path in the guides leads somewhere."""
    named = set(re.findall(r"`((?:holeplacer|tests|scripts|resources)/[\w./-]+)`", text))
    named |= set(re.findall(r"\]\(([\w./-]+)\)", text))
    assert named
    missing = sorted(path for path in named if "NAME" not in path and not (ROOT / path).exists())
    assert missing == []


def test_examples_in_docstrings_hold():
    """The examples of how lengths are typed give what they say."""
    assert doctest.testmod(units).attempted >= 3
    assert doctest.testmod(units).failed == 0
