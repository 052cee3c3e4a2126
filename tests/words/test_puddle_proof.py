"""How few puddles will do, in words: where none is needed, and where little is proven."""

from fewtubes.words.proof.puddles import fewest_label, fewest_words, sitting_label, sitting_words


def test_where_bare_paper_would_do_no_puddles_are_counted() -> None:
    """With the nearest mix for each colour there may be puddles that none needs."""
    assert sitting_words(0, 0, fitted=False) == (
        "Painted in one sitting, everything covered takes no puddle: bare paper would do."
    )
    assert sitting_label(0, 0, fitted=False) == "One sitting takes none: bare paper would do."
    assert fewest_words(0, 0, mixed=2, fitted=False) == "2 puddles, where bare paper would do."
    assert fewest_label(0, 0, mixed=1) == "1 puddle, where bare paper would do"
    assert fewest_words(0, 0, mixed=0, fitted=False) == "No puddle is needed."


def test_that_one_is_needed_goes_without_saying() -> None:
    for bound in (0, 1):
        told = sitting_words(3, bound, fitted=False)
        assert told.endswith("takes 3 puddles, the fewest found; fewer are not ruled out.")
        told = fewest_words(3, bound, mixed=3, fitted=False)
        assert told == "3 puddles: the fewest found; fewer are not ruled out."
    told = sitting_words(3, 2, fitted=False)
    assert told.endswith("the fewest found; 2 or more are needed, but fewer are not ruled out.")
