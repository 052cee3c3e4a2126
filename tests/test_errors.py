"""What is offered in place of a name that nobody knows."""

import pytest

from fewtubes.errors import suggestion

FLOWERS = ("primrose", "crocus", "rose, red", "Rose, yellow", "daffodil", "tulip, red")


@pytest.mark.parametrize(
    ("unknown", "told"),
    [
        # A whole word of the name goes before letters that are alike.
        ("rose", " Did you mean 'rose, red' or 'Rose, yellow' or 'primrose'?"),
        ("Red", " Did you mean 'rose, red' or 'tulip, red'?"),
        ("daffodill", " Did you mean 'daffodil'?"),
        ("xyz", ""),
        ("rose" * 51, ""),  # more than 200 signs are no slip of the pen
        ("", ""),
    ],
)
def test_names_that_hold_the_word_come_first(unknown: str, told: str) -> None:
    assert suggestion(unknown, FLOWERS) == told


def test_names_are_offered_in_quotation_marks_that_show_where_they_end() -> None:
    assert suggestion("mantle", ["lady's mantle", "mantle, \u3164"]) == (
        " Did you mean 'mantle, \\x3164' or \"lady's mantle\"?"
    )


def test_no_name_is_offered_twice_and_at_most_three_are() -> None:
    many = [f"rose, {place}" for place in range(9)]
    assert suggestion("rose", many).count("rose, ") == 3


@pytest.mark.parametrize(
    ("unknown", "first"),
    [
        ("rosé", "rose, red"),  # not crocus, which is spelt as much alike as rosé
        ("Rosen", "rose, red"),
        ("red rose", "rose, red"),
        ("crocuses", "crocus"),
        ("tulip", "tulip, red"),
    ],
)
def test_the_name_with_most_of_the_words_is_offered_first(unknown: str, first: str) -> None:
    told = suggestion(unknown, FLOWERS)
    assert told.startswith(f" Did you mean '{first}'")
    assert ("crocus" in told) == (first == "crocus")
