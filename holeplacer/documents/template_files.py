"""Template files: the template as PDF for rolls and for sheets, as SVG and as DXF."""

from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path

from holeplacer.documents import (
    caution,
    template_dxf,
    template_roll,
    template_tiles,
    write,
)
from holeplacer.documents.dxf_wish import Wish
from holeplacer.documents.template import Template, TemplateWish, section_templates, template
from holeplacer.evaluation.layout import Layout
from holeplacer.paper import font, pdf_file, size, svg_file
from holeplacer.paper.display_list import Leaf, Papers


def roll_papers(shown: Template, wish: TemplateWish) -> Papers:
    """The template on a roll, to be written or printed.

    Raises:
        InputError: The roll is too narrow.
    """
    return _papers(shown, template_roll.lengths(shown, wish))


def tiled_papers(shown: Template, wish: TemplateWish) -> Papers:
    """The template on sheets, to be written or printed.

    Raises:
        InputError: The sheets are too small, or too many.
    """
    return _papers(shown, template_tiles.tiles(shown, wish))


def svg(shown: Template, wish: TemplateWish) -> bytes:
    """The template in one piece as an SVG file."""
    leaf = template_roll.whole(shown, wish)
    return svg_file.svg_bytes(leaf, title=_title(shown), description=caution.SHORT)


def tiled_name(wish: TemplateWish) -> str:
    """Name of the file for sheets: `template-letter.pdf`."""
    return f"template-{size.paper_size(wish.paper).name.lower()}.pdf"


def write_template(
    layout: Layout,
    folder: Path,
    wish: TemplateWish,
    drawn: Wish | None = None,
    *,
    by_section: bool = False,
    protected: Iterable[Path] = (),
) -> tuple[Path, ...]:
    """Write the template in every form; each file is replaced only by a whole new one.

    Args:
        layout: The plan with its outline.
        folder: Where to; it exists.
        wish: How the template is wanted.
        drawn: How its DXF file is wanted.
        by_section: Whether each section has papers of its own too.
        protected: Files that must not be overwritten.

    Returns:
        Files written, in order.

    Raises:
        ExportError: One could not be written, or failed its read-back; those before it are whole.
        InputError: The wish can't be met.
    """
    shown = template(layout, wish)
    sheets = tiled_name(wish)
    makers: dict[str, Callable[[], bytes]] = {
        "template-roll.pdf": partial(_pdf, roll_papers, shown, wish),
        sheets: partial(_pdf, tiled_papers, shown, wish),
        "template.svg": partial(svg, shown, wish),
    }
    for part in section_templates(layout, wish) if by_section and layout.plan.seams else ():
        own = f"template-section-{part.section}-"
        makers[f"{own}roll.pdf"] = partial(_pdf, roll_papers, part, wish)
        makers[sheets.replace("template-", own)] = partial(_pdf, tiled_papers, part, wish)
    keep = tuple(protected)
    written = []
    for name, make in makers.items():
        write.replace_file(folder / name, make(), protected=keep)
        written.append(folder / name)
    path = folder / "template.dxf"
    data, check = template_dxf.made(layout, shown, drawn or Wish())
    write.replace_file(path, data, check=check, protected=keep)
    return (*written, path)


def _pdf(
    papers: Callable[[Template, TemplateWish], Papers], shown: Template, wish: TemplateWish
) -> bytes:
    return pdf_file.pdf_bytes(papers(shown, wish))


def _papers(shown: Template, leaves: tuple[Leaf, ...]) -> Papers:
    return Papers(_title(shown), leaves, caution.SHORT)


def _title(shown: Template) -> str:
    part = "" if shown.section is None else f", section {shown.section}"
    return f"Drilling template of {font.printable(shown.name)}{part}"
