"""Lists in a sentence and bare ones."""

from fewtubes.words.lists import in_a_row, joined


def test_lists_in_a_sentence() -> None:
    assert joined([]) == ""
    assert joined(["a"]) == "a"
    assert joined(["a", "b", "c"], "or") == "a, b or c"
    assert joined(["pink, pale", "blue"]) == "pink, pale; and blue"


def test_bare_lists() -> None:
    assert in_a_row([]) == ""
    assert in_a_row(["a", "b", "c"]) == "a, b, c"
    assert in_a_row(["pink, pale", "blue"]) == "pink, pale; blue"
