"""Options under headings."""

import click
from click.testing import CliRunner

from holeplacer.cli import sections


def test_help_lists_options_under_their_headings():
    """Each heading comes once, in the order first given, and options without one come last."""

    @click.command(cls=sections.SectionedCommand)
    @sections.option("Size", "--width", help="How wide.")
    @sections.option("Files", "--csv", help="Where to.")
    @sections.option("Size", "--height", help="How high.")
    def command(**_):
        """Do it."""

    lines = CliRunner().invoke(command, ["--help"]).output.splitlines()
    found = [line.split()[0] for line in lines[4:] if line.strip()]
    assert found == ["Size:", "--width", "--height", "Files:", "--csv", "Other:", "--help"]
