"""SVG document: XML bytes to an element tree, with nothing fetched and nothing exploding."""

import re

from lxml import etree

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.source import unpacked
from holeplacer.errors import ArtworkError

SVG_NAMESPACE = "http://www.w3.org/2000/svg"
MOST_TAGS = 400_000
"""More opening and closing tags than any lettering has; the tree would outgrow memory."""

_ENCODING = re.compile(rb"<\?xml[^>]*encoding\s*=\s*[\"']([A-Za-z0-9._-]+)")
_PLAIN_ENCODINGS = {b"utf-8", b"us-ascii", b"ascii", b"iso-8859-1", b"windows-1252"}
_WIDE_MARKS = (b"\xff\xfe", b"\xfe\xff")
"""How a file of two or four bytes a letter begins, unless it begins with a zero."""
_POSITION = re.compile(r",? line (\d+), column \d+.*$", re.DOTALL)


def svg_root(file: ArtworkFile) -> etree._Element:
    """Root `svg` element of a file.

    Entities that the document defines itself work; external ones, external style sheets and
    document types are never fetched, and multiplying entities are stopped.

    Raises:
        ArtworkError: It is not well-formed XML, too large or too deep, or no SVG.
    """
    data = unpacked(file)
    if data.count(b"<") > MOST_TAGS:
        raise ArtworkError(
            f"the drawing holds more than {MOST_TAGS} tags",
            where=file.name,
            remedy="keep only the outline",
        )
    if data[:1].isspace():
        data = data.lstrip()
    if _holds_nothings(data):
        raise ArtworkError(
            "the XML holds zero bytes, as a copy that broke off leaves them",
            where=file.name,
            remedy="ask for a complete copy, or export the drawing again",
        )
    root = _parsed(data, file.name)
    if local_name(root) != "svg":
        name = etree.QName(root).localname
        raise ArtworkError(
            f"the file is XML but its root is <{name[:40]}>, not <svg>",
            where=file.name,
            remedy="give a DXF or SVG drawing of the outline",
        )
    return root


def local_name(element: etree._Element) -> str:
    """Name of an SVG element; "" for elements of other namespaces, comments and the like.

    Elements without any namespace count as SVG: files are written by hand, too.
    """
    tag = element.tag
    if not isinstance(tag, str):
        return ""
    if tag.startswith("{"):
        namespace, _, name = tag[1:].partition("}")
        return name if namespace == SVG_NAMESPACE else ""
    return tag


def reference(element: etree._Element) -> str:
    """What an element refers to: its `href`, in either spelling."""
    href = element.get("href") or element.get("{http://www.w3.org/1999/xlink}href") or ""
    return str(href).strip()


def elements_by_id(root: etree._Element) -> dict[str, etree._Element]:
    """The element of each id; of several with the same id the first, as the standard has it."""
    found: dict[str, etree._Element] = {}
    for element in root.iter(etree.Element):
        name = element.get("id")
        if name:
            found.setdefault(str(name), element)
    return found


def _parsed(data: bytes, name: str) -> etree._Element:
    try:
        return etree.fromstring(data, _parser(huge=_is_harmless(data)))
    except etree.XMLSyntaxError as error:
        raise _unreadable(error, name) from error
    except ValueError as error:
        raise ArtworkError(f"the XML can't be read ({error})", where=name) from error


def _holds_nothings(data: bytes) -> bool:
    """Whether there are zero bytes that no encoding explains; the parser would crawl over them."""
    wide = b"\x00" in data[:4] or data[:2] in _WIDE_MARKS
    return (b"\x00" * 4 if wide else b"\x00") in data


def _parser(*, huge: bool) -> etree.XMLParser:
    return etree.XMLParser(
        resolve_entities="internal",
        no_network=True,
        load_dtd=False,
        remove_comments=True,
        remove_pis=True,
        huge_tree=huge,
    )


def _is_harmless(data: bytes) -> bool:
    """Whether no entity is defined, so that the parser's limits on length may be lifted.

    Embedded pictures are longer than those limits; multiplying entities need a definition, which
    an encoding of wider or other letters than ASCII would hide.
    """
    encoding = _ENCODING.search(data[:200])
    plain = encoding is None or encoding[1].lower() in _PLAIN_ENCODINGS
    return plain and b"\x00" not in data and b"<!ENTITY" not in data


def _unreadable(error: etree.XMLSyntaxError, name: str) -> ArtworkError:
    text = error.msg or "not well-formed"
    line = _POSITION.search(text)
    where = f"{name}, line {line[1]}" if line else name
    reason = _POSITION.sub("", text).strip().rstrip(".")
    lower = reason.lower()
    if "amplification" in lower or "entity reference loop" in lower:
        what = "its entities multiply without end"
    elif "excessive depth" in lower:
        what = "its elements are nested too deep"
    else:
        what = f"the XML is broken or cut short ({reason})"
    return ArtworkError(what, where=where, remedy="export the drawing again")
