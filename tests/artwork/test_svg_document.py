"""SVG trees: entities, encodings, references, and what is refused."""

import pytest
from svg_drafts import NAMESPACES, svg

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.svg_document import elements_by_id, local_name, reference, svg_root
from holeplacer.errors import ArtworkError


def test_entities_of_the_documents_own_work() -> None:
    """Harmless internal entities exist in real files, for namespaces and for data."""
    before = '<!DOCTYPE svg [<!ENTITY d "M0 0h1v1z"><!ENTITY n "http://www.w3.org/2000/svg">]>'
    root = svg_root(ArtworkFile("a", f'{before}<svg xmlns="&n;"><path d="&d;"/></svg>'.encode()))
    assert [local_name(element) for element in root] == ["path"]
    assert root[0].get("d") == "M0 0h1v1z"


def test_a_document_type_elsewhere_is_not_fetched() -> None:
    """The old public identifier of SVG 1.1 is left alone."""
    before = (
        '<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" '
        '"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">'
    )
    assert local_name(svg_root(svg("<g/>", before=before))) == "svg"


def test_elements_without_namespace_count_as_svg_others_do_not() -> None:
    """Files are written by hand, and editors add elements of their own."""
    root = svg_root(ArtworkFile("a", b'<svg><path/><e:grid xmlns:e="urn:editor"/></svg>'))
    assert [local_name(element) for element in root] == ["path", ""]


def test_of_equal_ids_the_first_counts() -> None:
    """As the standard has it."""
    root = svg_root(svg('<g id="a" class="first"/><g id="a"/>'))
    assert elements_by_id(root)["a"].get("class") == "first"


def test_references_are_read_in_both_spellings() -> None:
    """`href`, and before that `xlink:href`."""
    root = svg_root(svg('<use href="#a"/><use xlink:href=" #b "/><use xlink:href="#c" href="#d"/>'))
    assert [reference(element) for element in root] == ["#a", "#b", "#d"]


def test_embedded_pictures_of_any_length_are_let_pass() -> None:
    """The parser's limit of 10 MB for one attribute is lifted where nothing can multiply."""
    root = svg_root(svg(f'<image href="data:image/png;base64,{"A" * 11_000_000}"/>'))
    assert len(root[0].get("href")) > 11_000_000


def bomb(elements: str = "<text>&f;</text>") -> bytes:
    lines = "".join(
        f'<!ENTITY {b} "{f"&{a};" * 10}">' for a, b in zip("abcde", "bcdef", strict=True)
    )
    kinds = f'<!ENTITY a "{"a" * 1000}">{lines}'
    return f"<!DOCTYPE svg [{kinds}]><svg {NAMESPACES}>{elements}</svg>".encode()


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (bomb(), "a, line 1: its entities multiply without end"),
        (bomb().decode().encode("utf-16"), "its entities multiply without end"),
        (b"<svg><path d='M0 0", "a, line 1: the XML is broken or cut short"),
        (b"<svg>\n<path>\n</svg>", "a, line 3: the XML is broken or cut short"),
        (b"<svg>" + b"<g>" * 10_000 + b"</g>" * 10_000 + b"</svg>", "nested too deep"),
        (b'<!DOCTYPE svg [<!ENTITY f SYSTEM "file:///etc/hostname">]><svg>&f;</svg>', "'f'"),
        (b"<?xml version='1.0'?><html/>", "its root is <html>, not <svg>"),
        (b"<svg>" + b"<g/>" * 400_001, "more than 400000 tags"),
        (b"<svg>\x00</svg>", "the XML holds zero bytes"),
    ],
    ids=["bomb", "bomb in UTF-16", "cut", "unclosed", "deep", "outside", "html", "many", "zero"],
)
def test_what_can_not_be_a_drawing_is_refused(data: bytes, sentence: str) -> None:
    """One sentence, with the line where there is one."""
    with pytest.raises(ArtworkError) as refusal:
        svg_root(ArtworkFile("a", data))
    assert sentence in str(refusal.value)
