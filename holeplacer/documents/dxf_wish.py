"""DXF wish: how a cut drawing is wanted, known without loading what writes it."""

from dataclasses import dataclass

VERSIONS = ("R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018")
"""What can be written. R13 and R14 read R12."""


@dataclass(frozen=True)
class Wish:
    """How the drawing is wanted.

    Attributes:
        version: DXF version, one of `VERSIONS`.
        units: `mm` or `in`.
        numbers: Whether each hole's number stands beside it on the mark layer.
        centre_marks: Whether holes that are cut have a centre mark too. Holes that the process
            can't cut are always marked.
    """

    version: str = "R2000"
    units: str = "mm"
    numbers: bool = True
    centre_marks: bool = True
