"""Many scenarios answered for whoever has them as values."""

from pathlib import Path

import pytest

import fewtubes

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"


def scenario(**more: object) -> fewtubes.Scenario:
    asked = {"budget": 12.5, "currency": "EUR", "flowers": ["cornflower"], "paper": "plain"}
    return fewtubes.Scenario(**(asked | {"light": "E", "tolerance": 12} | more))  # type: ignore[arg-type]


@pytest.mark.usefixtures("alone")
def test_values_are_answered_and_written(tmp_path: Path, shared_cache: fewtubes.Cache) -> None:
    asked = {"b": scenario(), "a": scenario(budget=4), "c": scenario(flowers=["no such"])}
    found = fewtubes.batch(
        fewtubes.read_catalogue(SMALL), asked, out=tmp_path / "out", cache=shared_cache
    )
    assert [row.name for row in found.rows] == ["b", "a", "c"]  # in their own order
    assert [row.name for row in found.failed] == ["c"]
    assert {path.name for path in (tmp_path / "out").iterdir()} == {
        *("a", "b", ".done", "answers.csv", "answers.html"),
    }
    frame = found.answers()
    assert frame["coverage"].notna().tolist() == [True, True, False]
    assert frame.loc[1, "cost"] == found.rows[1].cost / 100


@pytest.mark.parametrize("name", ["", ".", "..", ".done", "a/b", "nul\0"])
def test_a_name_must_be_that_of_a_folder(name: str) -> None:
    with pytest.raises(fewtubes.InputError, match="is no name of a folder"):
        fewtubes.batch(fewtubes.read_catalogue(SMALL), {name: scenario()})
