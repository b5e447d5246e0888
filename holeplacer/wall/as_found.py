"""As found: what was met on site, and what the papers said before and say since."""

from dataclasses import dataclass


@dataclass(frozen=True)
class AsFound:
    """A hole that can't be drilled where the template has it.

    Attributes:
        hole: Its number.
        what: What is there, in the person's words.
        x_mm, y_mm: Where that was, in sign coordinates: it stays when the hole is moved away.
    """

    hole: int
    what: str
    x_mm: float
    y_mm: float


@dataclass(frozen=True)
class Revision:
    """One issue of the papers after the first.

    Attributes:
        number: 1 for the first change.
        changes: What changed, one sentence each.
        date: As the person wrote it; may be empty.
    """

    number: int
    changes: tuple[str, ...] = ()
    date: str = ""
