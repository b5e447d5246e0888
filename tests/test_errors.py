"""The error tree."""

import ast
import inspect

import pytest

from holeplacer import errors


def test_one_sentence_of_three_parts():
    """Where, what and what to do become one sentence with a full stop."""
    error = errors.ArtworkError("the file is empty", where="gull.svg", remedy="give another")
    assert str(error) == "gull.svg: the file is empty; give another."
    assert (error.what, error.where, error.remedy) == (
        "the file is empty",
        "gull.svg",
        "give another",
    )


@pytest.mark.parametrize(
    ("where", "remedy", "sentence"),
    [("", "", "it is so."), ("a", "", "a: it is so."), ("", "b", "it is so; b.")],
)
def test_parts_may_be_missing(where, remedy, sentence):
    """Only what is wrong is always said."""
    assert str(errors.HoleplacerError("it is so", where=where, remedy=remedy)) == sentence


def test_the_tree_in_the_docstring_is_the_tree():
    """Every class hangs where the docstring draws it, and none is missing."""
    classes = {
        name: cls
        for name, cls in vars(errors).items()
        if inspect.isclass(cls) and cls.__module__ == errors.__name__
    }
    drawn = {}
    parents = {}
    for line in ast.get_docstring(ast.parse(inspect.getsource(errors))).splitlines():
        words = line.replace("├──", " ").replace("└──", " ").replace("│", " ").split()
        if words and words[0] in classes:
            depth = line.index(words[0])
            drawn[words[0]] = next(
                (name for name, at in reversed(parents.items()) if at < depth), None
            )
            parents[words[0]] = depth
    assert drawn.keys() == classes.keys()
    for name, parent in drawn.items():
        if parent:
            assert classes[name].__base__ is classes[parent]


def test_all_are_caught_at_the_root():
    """One `except` at the border of the program is enough."""
    with pytest.raises(errors.HoleplacerError):
        raise errors.UnitsMissing("the drawing states no units", remedy="give --units")
