"""Binary DXF, written out as the tags of a text DXF so that one reader serves both."""

import struct
from collections.abc import Iterator
from itertools import chain

from holeplacer.errors import ArtworkError

SENTINEL = b"AutoCAD Binary DXF\r\n\x1a\x00"
LARGEST_BINARY_MB = 24
"""Binary tags are taken apart one by one: about 2 us each (measured), so 10 s is reached here."""

_MEGABYTE = 1_000_000


def is_binary(data: bytes) -> bool:
    """Whether the bytes are a binary DXF."""
    return data.startswith(SENTINEL[:18])


def as_text(data: bytes) -> bytes:
    """The tags as UTF-8 text: group code and value on lines of their own.

    Raises:
        ArtworkError: The file is too large to be read in time, or damaged.
    """
    if len(data) > LARGEST_BINARY_MB * _MEGABYTE:
        raise ArtworkError(
            f"the binary DXF is larger than {LARGEST_BINARY_MB} MB, the most that is read",
            remedy="save it as text (ASCII) DXF",
        )
    # The DXF library is slow to load, and hardly any file needs it to be read.
    from ezdxf.lldxf.const import DXFError

    spoiled = (IndexError, ValueError, struct.error, DXFError)  # bytes missing or without meaning
    try:
        return "".join(chain.from_iterable(_lines(data))).encode("utf-8")
    except spoiled as error:
        raise ArtworkError(
            "the binary DXF is damaged or breaks off", remedy="ask for a complete copy"
        ) from error


def _lines(data: bytes) -> Iterator[tuple[str, str, str, str]]:
    from ezdxf.lldxf.tagger import binary_tags_loader

    for tag in binary_tags_loader(data, errors="replace"):
        value = tag.value
        if isinstance(value, str):
            text = value.replace("\r", " ").replace("\n", " ")
        else:
            text = "" if isinstance(value, bytes) else repr(value)
        yield str(tag.code), "\n", text, "\n"
