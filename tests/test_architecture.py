"""The house rules that no linter knows, each seen to fail on a planted offence."""

import ast
import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
VAGUE_NAMES = {"utils", "util", "helpers", "helper", "manager", "misc", "common", "tools", "base"}
UNMIRRORED = {"reference", "job", "files", "documents_run"}
LONGEST_MODULE = 450


def modules(root: Path) -> list[Path]:
    """All modules of the package but docstring-only `__init__` files, relative to it."""
    package = root / "holeplacer"
    return sorted(
        path.relative_to(package)
        for path in package.rglob("*.py")
        if path.name != "__init__.py" and "__pycache__" not in path.parts
    )


def mirror_of(module: Path) -> Path:
    """The test file that mirrors a module."""
    return module.parent / f"test_{module.stem.strip('_')}.py"


def without_test(root: Path) -> list[str]:
    return [str(m) for m in modules(root) if not (root / "tests" / mirror_of(m)).exists()]


def orphaned_tests(root: Path) -> list[str]:
    expected = {mirror_of(module) for module in modules(root)} | {Path("test_architecture.py")}
    found = (path.relative_to(root / "tests") for path in (root / "tests").rglob("test_*.py"))
    return sorted(
        str(path) for path in found if path.parts[0] not in UNMIRRORED and path not in expected
    )


def inits_with_code(root: Path) -> list[str]:
    offenders = []
    for path in sorted((root / "holeplacer").rglob("__init__.py")):
        body = ast.parse(path.read_text(encoding="utf-8")).body
        if len(body) != 1 or not isinstance(body[0], ast.Expr):
            offenders.append(str(path.relative_to(root)))
    return offenders


def too_long(root: Path) -> list[str]:
    package = root / "holeplacer"
    return [
        str(module)
        for module in modules(root)
        if len((package / module).read_text(encoding="utf-8").splitlines()) > LONGEST_MODULE
    ]


def vaguely_named(root: Path) -> list[str]:
    return [
        str(module)
        for module in modules(root)
        if VAGUE_NAMES & {part.removesuffix(".py") for part in module.parts}
    ]


def widgets_outside_window(root: Path) -> list[str]:
    package = root / "holeplacer"
    return [
        str(module)
        for module in modules(root)
        if module.parts[0] not in {"gui", "pdf"}
        and re.search(r"\bQtWidgets\b", (package / module).read_text(encoding="utf-8"))
    ]


def folders_without_init(root: Path) -> list[str]:
    package = root / "holeplacer"
    return sorted(
        {
            str(module.parent)
            for module in modules(root)
            if not (package / module).with_name("__init__.py").exists()
        }
    )


CHECKS = [
    without_test,
    orphaned_tests,
    inits_with_code,
    too_long,
    vaguely_named,
    widgets_outside_window,
    folders_without_init,
]


@pytest.mark.parametrize("check", CHECKS)
def test_house_keeps_its_rules(check):
    """No module breaks the rule."""
    assert check(ROOT) == []


@pytest.mark.parametrize("check", CHECKS)
def test_planted_offence_is_caught(check, tmp_path):
    """Each rule has been seen to fail."""
    package, tests = tmp_path / "holeplacer", tmp_path / "tests"
    for folder in (package / "plan", package / "nowhere", tests / "plan"):
        folder.mkdir(parents=True)
    (package / "__init__.py").write_text('"""Doc."""\nX = 1\n')
    (package / "plan" / "__init__.py").write_text('"""Doc."""\n')
    (package / "plan" / "utils.py").write_text("from PySide6 import QtWidgets\n")
    (package / "plan" / "long.py").write_text("x = 1\n" * (LONGEST_MODULE + 1))
    (package / "nowhere" / "hole.py").write_text("")
    (tests / "plan" / "test_gone.py").write_text("")
    assert check(tmp_path) != []
