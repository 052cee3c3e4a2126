"""A card as it is asked for."""

import pytest

from fewtubes.card.asked import card_asked, names_in
from fewtubes.errors import InputError


def test_names_are_set_off_by_commas_or_semicolons() -> None:
    assert names_in(" my rose,my  blue ") == ("my rose", "my blue")
    assert names_in("pink, fugitive; my blue") == ("pink, fugitive", "my blue")


def test_one_sheet_full_is_what_nobody_asks_otherwise() -> None:
    card = card_asked()
    assert card.paper_size == "A4"
    assert [len(sheet.rows) for sheet in card.sheets] == [8]
    assert card_asked(paper_size="letter", tubes=9).paper_size == "Letter"
    assert [row.name for row in card_asked(names=["a", "b"]).sheets[0].rows] == ["a", "b"]


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ({"paper_size": "A5"}, "paper_size: is 'A5'; allowed: A4, Letter."),
        ({"tubes": 0}, "tubes: is 0; it must be from 1 to 96."),
        ({"tubes": 97}, "tubes: is 97; it must be from 1 to 96."),
        ({"tubes": 2, "names": ["a"]}, "tubes: cannot be given together with names"),
        ({"names": ["a", ""]}, "names, entry 2: is blank; fill it in."),
        ({"names": ["a", "A "]}, "names: 'A ' stands there more than once"),
        ({"names": ["a"] * 97}, "names: are 97; at most 96 fit"),
        ({"names": ["a\x07"]}, "names, entry 1: holds the unprintable character U+0007"),
    ],
)
def test_faults_are_told(asked: dict[str, object], told: str) -> None:
    with pytest.raises(InputError) as caught:
        card_asked(**asked)  # type: ignore[arg-type]
    assert told in str(caught.value)
