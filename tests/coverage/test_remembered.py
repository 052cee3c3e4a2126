"""Remembered minimal sets are those computed."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import numpy.typing as npt
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.reach import SetArray, find_reach
from fewtubes.coverage.remembered import reach_of
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import RecipeSpace

TUBES = ("magenta", "golden-yellow", "green-leaning-blue", "warm-red", "lemon")


class Question:
    """A few tubes and samples, and how many samples the program computed for them."""

    def __init__(self, catalogue: Catalogue, optics: Optics) -> None:
        self.K = np.array([catalogue.tubes[name].K for name in TUBES])
        self.S = np.array([catalogue.tubes[name].S for name in TUBES])
        self.optics = optics
        swatches = [s for flower in catalogue.flowers.values() for s in flower.swatches]
        self.labs = np.array([swatch.lab for swatch in swatches[::7]][:12])
        self.computed: list[int] = []

    def counted(self, K: FloatArray, S: FloatArray, labs: FloatArray, **rest: object) -> object:
        """Compute, and note of how many samples."""
        self.computed.append(len(labs))
        return find_reach(K, S, labs, **rest)  # type: ignore[arg-type]

    def check(
        self,
        cache: Cache,
        labs: FloatArray,
        *,
        tolerance: float = 4.0,
        space: RecipeSpace | None = None,
        optics: Optics | None = None,
    ) -> tuple[SetArray, ...]:
        """Ask with the cache and without it; the answers must be the same to the last row."""
        space, optics = space or RecipeSpace(), optics or self.optics
        found = reach_of(
            self.K, self.S, labs, optics=optics, space=space, tolerance=tolerance, cache=cache
        )
        plain = find_reach(self.K, self.S, labs, optics=optics, space=space, tolerance=tolerance)
        assert len(found) == len(plain) == len(labs)
        for one, other in zip(found, plain, strict=True):
            np.testing.assert_array_equal(one, other)
            assert one.dtype == other.dtype
            assert one.shape == other.shape
        return found


@pytest.fixture
def question(catalogue: Catalogue, optics: Optics, monkeypatch: pytest.MonkeyPatch) -> Question:
    """Return the question, with the program's computations counted."""
    asked = Question(catalogue, optics)
    monkeypatch.setattr("fewtubes.coverage.remembered.find_reach", asked.counted)
    return asked


def test_cold_then_warm(question: Question, tmp_path: Path) -> None:
    found = question.check(Cache(tmp_path), question.labs)
    assert {len(rows) == 0 for rows in found} == {True, False}  # both kinds are remembered
    question.check(Cache(tmp_path), question.labs)
    assert question.computed == [12]


def test_only_what_is_new_is_computed(question: Question, tmp_path: Path) -> None:
    question.check(Cache(tmp_path), question.labs[:5])
    question.check(Cache(tmp_path), question.labs[3:9])
    question.check(Cache(tmp_path), question.labs[::-1])  # in another order
    question.check(Cache(tmp_path), question.labs[[8, 2]])
    assert question.computed == [5, 4, 3]


def test_a_colour_asked_for_twice(question: Question, tmp_path: Path) -> None:
    question.check(Cache(tmp_path), question.labs[[1, 1, 0, 1]])
    assert question.computed == [2]


def test_no_samples(question: Question, tmp_path: Path) -> None:
    assert question.check(Cache(tmp_path), np.zeros((0, 3))) == ()
    assert question.computed == []


def test_an_edited_spectrum_is_computed_anew(question: Question, tmp_path: Path) -> None:
    before = question.check(Cache(tmp_path), question.labs)
    question.K = question.K * np.where(np.arange(len(TUBES)) == 2, 1.5, 1.0)[:, None]
    after = question.check(Cache(tmp_path), question.labs)
    assert question.computed == [12, 12]
    changed = [not np.array_equal(a, b) for a, b in zip(before, after, strict=True)]
    assert any(changed)


def test_tolerances_spaces_and_papers_are_kept_apart(
    question: Question, catalogue: Catalogue, tmp_path: Path
) -> None:
    cream = Optics.with_weights(catalogue.papers["cream"], question.optics.weights)
    strong = RecipeSpace.no_thinner_than(0.3)
    for _ in range(2):
        question.check(Cache(tmp_path), question.labs, tolerance=4.0)
        question.check(Cache(tmp_path), question.labs, tolerance=2.5)
        question.check(Cache(tmp_path), question.labs, space=strong)
        question.check(Cache(tmp_path), question.labs, optics=cream)
    assert question.computed == [12] * 4


def test_what_was_mixed_of_three_serves_two(question: Question, tmp_path: Path) -> None:
    question.check(Cache(tmp_path), question.labs[:5])
    for most in (2, 1, 3):
        question.check(Cache(tmp_path), question.labs[:5], space=RecipeSpace(most_tubes=most))
    assert question.computed == [5]
    question.check(Cache(tmp_path), question.labs, space=RecipeSpace(most_tubes=2))
    question.check(Cache(tmp_path), question.labs, space=RecipeSpace(most_tubes=1))
    assert question.computed == [5, 7]  # what two did not know either
    question.check(Cache(tmp_path), question.labs, space=RecipeSpace(most_tubes=3))
    assert question.computed == [5, 7, 7]  # two cannot tell what three reach


def test_thinner_washes_of_three_do_not_serve_two(question: Question, tmp_path: Path) -> None:
    question.check(Cache(tmp_path), question.labs)
    strong = RecipeSpace.no_thinner_than(0.3, 2)
    question.check(Cache(tmp_path), question.labs, space=strong)
    assert question.computed == [12, 12]


@pytest.mark.parametrize("data", [b"", b"not an archive", None], ids=["empty", "text", "cut off"])
def test_a_damaged_file_is_computed_anew(
    question: Question, tmp_path: Path, data: bytes | None
) -> None:
    question.check(Cache(tmp_path), question.labs)
    (file,) = tmp_path.iterdir()
    file.write_bytes(file.read_bytes()[:-20] if data is None else data)
    question.check(Cache(tmp_path), question.labs)
    question.check(Cache(tmp_path), question.labs)
    assert question.computed == [12, 12]  # and then replaced


def test_a_folder_that_cannot_be_written(question: Question, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    for cache in (Cache(), Cache(tmp_path / "file" / "below")):
        question.check(cache, question.labs[:4])
    assert question.computed == [4, 4]


Change = Callable[[dict[str, npt.NDArray[Any]]], dict[str, npt.NDArray[Any]]]

NONSENSE: dict[str, Change] = {
    "nothing": lambda _: {},
    "less": lambda kept: {"labs": kept["labs"], "sets": kept["sets"]},
    "more": lambda kept: kept | {"more": np.zeros(3)},
    "labs of another shape": lambda kept: kept | {"labs": kept["labs"].reshape(-1)},
    "labs of another type": lambda kept: kept | {"labs": kept["labs"].astype(np.float32)},
    "labs not finite": lambda kept: kept | {"labs": kept["labs"] * np.inf},
    "fewer labs": lambda kept: kept | {"labs": kept["labs"][1:]},
    "no axis": lambda kept: kept | {"labs": np.array(1.0)},
    "counts no axis": lambda kept: kept | {"counts": np.array(12)},
    "sets no axis": lambda kept: kept | {"sets": np.array(1, np.int16)},
    "sets of another type": lambda kept: kept | {"sets": kept["sets"].astype(np.int64)},
    "sets of another width": lambda kept: kept | {"sets": kept["sets"][:, :2]},
    "unknown tube": lambda kept: kept | {"sets": np.where(kept["sets"] == 4, 5, kept["sets"])},
    "below no tube": lambda kept: kept | {"sets": np.where(kept["sets"] < 0, -2, kept["sets"])},
    "not ascending": lambda kept: kept | {"sets": kept["sets"][:, ::-1]},
    "counts too many": lambda kept: kept | {"counts": kept["counts"] + 1},
    "counts below 0": lambda kept: kept | {"counts": kept["counts"] - kept["counts"].max()},
    "counts as fractions": lambda kept: kept | {"counts": kept["counts"].astype(float)},
}


@pytest.mark.parametrize("change", NONSENSE.values(), ids=NONSENSE)
def test_sealed_nonsense_is_computed_anew(
    question: Question, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, change: Change
) -> None:
    question.check(Cache(tmp_path), question.labs)
    load = Cache.load

    def changed(cache: Cache, kind: str, basis: Any) -> Any:
        kept = load(cache, kind, basis)
        return None if kept is None else change(kept)

    with monkeypatch.context() as patch:
        patch.setattr(Cache, "load", changed)
        question.check(Cache(tmp_path), question.labs)
    assert question.computed == [12, 12]
    question.check(Cache(tmp_path), question.labs)
    assert question.computed == [12, 12]


def test_the_file_of_another_tolerance_proves_nothing(question: Question, tmp_path: Path) -> None:
    question.check(Cache(tmp_path), question.labs, tolerance=4.0)
    (strict,) = tmp_path.iterdir()
    question.check(Cache(tmp_path), question.labs, tolerance=8.0)
    (loose,) = set(tmp_path.iterdir()) - {strict}
    strict.write_bytes(loose.read_bytes())
    question.check(Cache(tmp_path), question.labs, tolerance=4.0)
    assert question.computed == [12, 12, 12]
