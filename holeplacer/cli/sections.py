"""Sections: a command's options listed under headings, the way a person looks for them."""

from collections.abc import Callable
from typing import Any, TypeVar

import click

Command = TypeVar("Command", bound=Callable[..., Any])

ARTWORK, METAL, LIMITS, FILES = "Artwork", "Sheet and hardware", "Limits", "What is written"
LOADS, DIVIDING, WALL = "Loads and strength", "Sections and cutting", "Wall"


class SectionedOption(click.Option):
    """An option that stands under a heading.

    Args:
        *declarations: Its names, as click takes them.
        section: The heading; the last one of all if empty.
        **settings: Everything else click takes.
    """

    def __init__(self, *declarations: Any, section: str = "", **settings: Any) -> None:
        super().__init__(*declarations, **settings)
        self.section = section


class SectionedCommand(click.Command):
    """A command whose help lists options heading by heading, in the order they were given."""

    def format_options(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write every option under its heading."""
        sections: dict[str, list[tuple[str, str]]] = {}
        for parameter in self.get_params(ctx):
            record = parameter.get_help_record(ctx)
            if record is not None and isinstance(parameter, click.Option):
                heading = getattr(parameter, "section", "")
                sections.setdefault(heading, []).append(record)
        others = sections.pop("", [])
        for heading, records in [*sections.items(), ("Other", others)]:
            with formatter.section(heading):
                formatter.write_dl(records)


def option(section: str, *declarations: str, **settings: Any) -> Callable[[Command], Command]:
    """A `click.option` under a heading."""
    return click.option(*declarations, cls=SectionedOption, section=section, **settings)
