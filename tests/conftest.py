"""How property tests draw their examples: anew at the desk, always the same ones in CI.

A person's run looks for new counterexamples; a run that decides whether a change goes in must not
depend on luck. Property tests also draw constants of the code that is loaded by then, so that in
CI all of it is.

Tests that run side by side share neither settings nor recent files nor recovery.
"""

import importlib.util
import os
import pkgutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

import holeplacer

if worker := os.environ.get("PYTEST_XDIST_WORKER"):
    for name in (name for name in os.environ if name.startswith("XDG_")):
        own = Path(os.environ[name], worker)
        own.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.environ[name] = str(own)

settings.register_profile("desk", deadline=None)
settings.register_profile("ci", deadline=None, derandomize=True)
settings.load_profile("ci" if os.environ.get("CI") else "desk")

if os.environ.get("CI"):
    for module in pkgutil.walk_packages(holeplacer.__path__, "holeplacer."):
        if not module.name.endswith("__main__"):
            __import__(module.name)


@pytest.fixture(scope="session")
def read_paper() -> Callable[[bytes], list[Any]]:
    """Reads a PDF file page by page with a library that did not write it."""
    spec = importlib.util.spec_from_file_location(
        "pdf_reader", Path(__file__).with_name("pdf_reader.py")
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.read
