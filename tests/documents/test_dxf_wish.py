"""How a cut drawing is wanted."""

import subprocess
import sys

from holeplacer.documents.dxf_wish import VERSIONS, Wish


def test_the_usual_wish_can_be_written():
    """Without a word from the person: a version that every program reads, with all marks."""
    assert Wish() == Wish("R2000", "mm", numbers=True, centre_marks=True)
    assert Wish().version in VERSIONS


def test_wishing_loads_no_writer():
    """Help texts and verbs that write no drawing need not wait for the DXF library."""
    program = (
        "import sys, holeplacer.cli.show, holeplacer.cli.propose; print('ezdxf' in sys.modules)"
    )
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True)
    assert done.stdout == "False\n"
