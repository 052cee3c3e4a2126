"""The optional table of likely spectra: which pigments are fitted, and what is wrong with it."""

from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from tests.faults import faults_of_catalogue
from tests.fitted_tables import DRAWS, fit

from fewtubes.catalogue import sizes
from fewtubes.catalogue.likely import LEAST_DRAWS, LIKELY_COLUMNS
from fewtubes.catalogue.reading import LIKELY_TABLE, read_catalogue
from fewtubes.colour.bands import BAND_COUNT
from fewtubes.errors import Fault

ROOT = Path(__file__).parents[2]

Edit = Callable[[list[str]], list[str]]

HEADER = ",".join(LIKELY_COLUMNS)
FLAT = ",".join(["0.5"] * BAND_COUNT)


def edited(folder: Path, edit: Edit) -> tuple[Fault, ...]:
    """Return the faults after the table's rows were edited; the header is row 1."""
    path = folder / LIKELY_TABLE
    path.write_text("\n".join(edit(path.read_text(encoding="utf-8").splitlines())), "utf-8")
    return faults_of_catalogue(folder)


def drawn(pigment: str, draws: range) -> list[str]:
    """Return rows of a pigment, flat spectra all."""
    return [f"{pigment},{draw},{quantity},{FLAT}" for draw in draws for quantity in "KS"]


def written(folder: Path, rows: list[str]) -> tuple[Fault, ...]:
    """Return the faults of a catalogue with these rows."""
    (folder / LIKELY_TABLE).write_text("\n".join([HEADER, *rows]), encoding="utf-8")
    return faults_of_catalogue(folder)


def test_without_the_table_nothing_is_fitted(folder: Path) -> None:
    catalogue = read_catalogue(folder)
    assert not any(pigment.fitted for pigment in catalogue.pigments.values())
    assert not any(tube.fitted for tube in catalogue.tubes.values())


def test_a_header_alone_says_the_same(folder: Path) -> None:
    assert written(folder, []) == ()
    assert not any(pigment.fitted for pigment in read_catalogue(folder).pigments.values())


def test_pigments_with_rows_are_fitted_and_tubes_that_hold_them(folder: Path) -> None:
    fit(folder, "yellow")
    catalogue = read_catalogue(folder)
    assert [id_ for id_, pigment in catalogue.pigments.items() if pigment.fitted] == ["yellow"]
    assert [id_ for id_, tube in catalogue.tubes.items() if tube.fitted] == ["lemon", "leaf-green"]
    likely = catalogue.pigments["yellow"].likely
    assert likely is not None
    for array in (likely.K, likely.S):
        assert array.shape == (DRAWS, BAND_COUNT)
        assert not array.flags.writeable


def test_draws_stand_in_the_order_of_their_numbers(folder: Path) -> None:
    fit(folder, "blue", "yellow")
    before = read_catalogue(folder).pigments["blue"].likely
    assert edited(folder, lambda rows: [rows[0], *reversed(rows[1:])]) == ()
    after = read_catalogue(folder).pigments["blue"].likely
    assert before is not None
    assert after is not None
    assert np.array_equal(before.K, after.K)
    assert np.array_equal(before.S, after.S)


@pytest.mark.parametrize(
    ("edit", "where", "what"),
    [
        (
            lambda rows: [*rows, f"blew,1,K,{FLAT}", f"blew,1,S,{FLAT}"],
            "row 50",
            "pigment 'blew' is not in pigments.csv; correct it or add it there. Did you mean",
        ),
        (
            lambda rows: rows[:-1],
            "row 2",
            "the pigment 'blue' lacks 'S of draw 24'; every draw needs K and S.",
        ),
        (
            lambda rows: [rows[0], *rows[3:]],
            "row 2",
            "the draws of the pigment 'blue' go up to 24, but these are missing: 1; number them"
            " from 1 without gaps.",
        ),
        (
            lambda rows: rows[: 1 + 2 * (LEAST_DRAWS - 1)],
            "row 2",
            "the pigment 'blue' has 19 draws; it must have from 20 to 200, or none at all.",
        ),
        (
            lambda rows: [*rows, rows[1]],
            "row 50",
            "K of draw 1 of the pigment 'blue' is already in row 2; keep only one of them.",
        ),
        (
            lambda rows: [*rows[:-1], rows[-1].replace("blue,24,S", "blue,24,s")],
            "row 49",
            "quantity is 's'; allowed: K, S.",
        ),
        (
            lambda rows: [*rows[:-1], rows[-1].replace("blue,24", "blue,24.5")],
            "row 49",
            "draw is '24.5'; it must be a whole number from 1 to 200.",
        ),
        (
            lambda rows: [*rows[:-1], rows[-1].replace("blue,24", "blue,201")],
            "row 49",
            "draw is '201'; it must be from 1 to 200.",
        ),
        (
            lambda rows: [*rows[:-1], rows[-1].replace("blue,24", "blue,")],
            "row 49",
            "draw is blank; it must be a number from 1 to 200.",
        ),
        (
            lambda rows: [*rows[:-1], f"blue,24,S,-1,{FLAT[4:]}"],
            "row 49",
            "nm380 '-1': every band must be a number from 0 to 1,000.",
        ),
        (
            lambda rows: [*rows[:-1], f"blue,24,S,,{FLAT[4:]}"],
            "row 49",
            "the spectrum has gaps at nm380; give a value for every band.",
        ),
        (
            lambda rows: [*rows[:-1], "blue,24,S"],
            "row 49",
            "has 3 cells, but the header has 39; check the commas",
        ),
    ],
)
def test_a_spoilt_table_is_told_once(folder: Path, edit: Edit, where: str, what: str) -> None:
    fit(folder, "blue")
    (fault,) = edited(folder, edit)[:1]
    assert fault.where == f"{LIKELY_TABLE}, {where}"
    assert what in fault.what
    others = [other for other in edited(folder, lambda rows: rows) if other != fault]
    assert all("blew" in other.what for other in others), others


def test_as_many_draws_as_are_allowed(folder: Path) -> None:
    assert written(folder, drawn("blue", range(1, sizes.MOST_DRAWS + 1))) == ()


def test_a_folder_in_its_place_is_not_passed_over(folder: Path) -> None:
    (folder / LIKELY_TABLE).mkdir()
    (fault,) = faults_of_catalogue(folder)
    assert fault == Fault(LIKELY_TABLE, "is not a file; put the file itself in its place.")


def test_it_may_be_larger_than_other_tables(folder: Path) -> None:
    """Sparse: the size is told by the system, and no byte is written or read."""
    with (folder / LIKELY_TABLE).open("wb") as file:
        file.truncate(sizes.LARGEST_LIKELY_TABLE + 1)
    assert faults_of_catalogue(folder) == (
        Fault(LIKELY_TABLE, "has 10,000,001 bytes; at most 10,000,000 are allowed, so shorten it."),
    )


def test_the_documents_tell_its_limits() -> None:
    told = " ".join((ROOT / "catalogue" / "README.md").read_text(encoding="utf-8").split())
    assert (
        f"`likely_spectra.csv` alone may have {sizes.LARGEST_LIKELY_TABLE:,} bytes and"
        f" {sizes.MOST_LIKELY_ROWS:,} rows"
    ) in told
    assert f"1, 2 … n, from {LEAST_DRAWS} to {sizes.MOST_DRAWS} of them" in told
