"""The template on the command line."""

import re

import pypdf


def test_make_writes_the_template_in_every_form(run, saved_plan, tmp_path):
    """Roll, sheets by name, SVG, DXF; the date is that of the day, year first."""
    status, out, _ = run("make", saved_plan, "--to", tmp_path / "out", "--paper", "a4")
    assert status == 0
    folder = tmp_path / "out" / "paper"
    names = {"template-roll.pdf", "template-a4.pdf", "template.svg", "template.dxf"}
    assert {path.name for path in folder.iterdir()} >= names
    assert all(str(folder / name) in out for name in names)
    text = pypdf.PdfReader(folder / "template-a4.pdf").pages[0].extract_text()
    assert re.search(r"Date 20\d\d-\d\d-\d\d", text)


def test_date_and_revision_are_printed_as_they_are_given(run, saved_plan, tmp_path):
    """So that papers made again are the same to a byte."""
    given = ("--date", "3 May", "--revision", "C")
    found = []
    for name in ("one", "two"):
        assert run("make", saved_plan, "--to", tmp_path / name, *given)[0] == 0
        found.append((tmp_path / name / "paper" / "template-letter.pdf").read_bytes())
    assert found[0] == found[1]
    text = pypdf.PdfReader(tmp_path / "one" / "paper" / "template-letter.pdf").pages[0]
    assert "Revision C" in text.extract_text()


def test_a_grid_or_roll_that_can_not_be_is_one_sentence(run, saved_plan, tmp_path):
    """Status 2, and what to take."""
    for option, value in (("--grid", "1mm"), ("--roll", "50mm"), ("--overlap", "900mm")):
        status, _, err = run("make", saved_plan, "--to", tmp_path / "out", option, value)
        assert status == 2
        assert "take" in err
