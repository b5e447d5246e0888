"""Sections of a DXF file: which records are its layers, blocks and entities, and is it whole.

A file that lacks only its end mark, or is damaged after the last section that matters, is read
and the account says so. A file that breaks off among its entities or blocks is refused: nobody
could say what metal is missing.
"""

from dataclasses import dataclass

import numpy as np

from holeplacer.artwork.dxf_records import Records
from holeplacer.artwork.dxf_tags import Indices, Tags, broken_off
from holeplacer.errors import ArtworkError

_NEEDED = {"TABLES", "BLOCKS", "ENTITIES"}


@dataclass(frozen=True, eq=False)
class Sections:
    """Records by section.

    Attributes:
        records: Numbers of the records of each section, by the section's name.
        header: (first, last) tags of the header.
        mended: What was missing and could be done without.
    """

    records: dict[str, Indices]
    header: tuple[int, int]
    mended: tuple[str, ...]

    def of(self, name: str) -> Indices:
        """Records of a section, none if the file has no such section."""
        return self.records.get(name, np.zeros(0, dtype=np.intp))


def sections_of(records: Records) -> Sections:
    """Sort the records of a file by section.

    Raises:
        ArtworkError: There are no sections, or the file breaks off in one that is needed.
    """
    tags = records.tags
    marks = np.concatenate([records.named(n) for n in ("SECTION", "ENDSEC", "EOF")])
    found: dict[str, list[Indices]] = {}
    header, mended, name, begin = (0, 0), [], "", 0
    for mark in [*np.sort(marks).tolist(), len(records.first)]:
        kind = records.name(mark) if mark < len(records.first) else ""
        if name:
            if not kind and name in _NEEDED:
                raise broken_off(tags, f"{name} section")
            if kind != "ENDSEC":
                mended.append(f"the end of the {name} section was missing")
            found.setdefault(name, []).append(np.arange(begin, mark))
        if kind == "EOF":
            break
        name = records.text(mark, 2).upper() if kind == "SECTION" else ""
        begin = mark + 1
        if name == "HEADER":
            header = (int(records.first[mark]), int(records.last[mark]))
    else:
        mended.append("the end mark of the file was missing")
    if tags.damage and kind != "EOF":
        mended.append(f"damage after the drawing was passed over: {tags.damage}")
    if "ENTITIES" not in found:
        raise _without_entities(tags, list(found), whole=kind == "EOF")
    joined = {name: np.concatenate(parts) for name, parts in found.items()}
    return Sections(joined, header, tuple(mended))


def _without_entities(tags: Tags, found: list[str], *, whole: bool) -> ArtworkError:
    if tags.damage or not found or not whole:
        return broken_off(tags, f"{found[-1]} section" if found else "first lines")
    return ArtworkError(
        "the drawing has no ENTITIES section, so nothing is drawn in it",
        remedy="save the drawing again with its outline in model space",
    )
