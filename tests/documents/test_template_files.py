"""Files of the template."""

import pytest

from holeplacer.documents import template_files
from holeplacer.documents.template import TemplateWish
from holeplacer.errors import HoleplacerError
from holeplacer.plan.hole import Hole

HOLES = (Hole(1, 55.0, -50.0, 7.0), Hole(2, 255.0, -50.0, 7.0))


def test_every_form_is_written_and_named_by_its_paper(laid_out, tmp_path):
    """PDF for roll and sheets, SVG, DXF; the same again to a byte but for the DXF."""
    layout = laid_out(*HOLES)
    files = template_files.write_template(layout, tmp_path, TemplateWish(paper="A4"))
    assert [path.name for path in files] == [
        "template-roll.pdf", "template-a4.pdf", "template.svg", "template.dxf",
    ]  # fmt: skip
    before = {path: path.read_bytes() for path in files[:3]}
    template_files.write_template(layout, tmp_path, TemplateWish(paper="A4"))
    assert before == {path: path.read_bytes() for path in files[:3]}


def test_a_protected_file_stays(laid_out, tmp_path):
    """What must not be overwritten is refused by its name."""
    kept = tmp_path / "template.svg"
    kept.write_text("mine")
    with pytest.raises(HoleplacerError):
        template_files.write_template(laid_out(*HOLES), tmp_path, TemplateWish(), protected=(kept,))
    assert kept.read_text() == "mine"
