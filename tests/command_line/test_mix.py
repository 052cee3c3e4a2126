"""``fewtubes mix`` on the small catalogue, and the colours it takes."""

import re
from collections.abc import Callable, Sequence
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.errors import InputError
from fewtubes.scenario.named_colour import lab_named

Run = Callable[..., Any]


def flat(text: str) -> str:
    return " ".join(text.split())


def test_the_best_mixes_come_first(run: Run, small: Sequence[str]) -> None:
    told = run("mix", "cornflower / ray", "--most", 3, "--tolerance", 20, *small)
    assert told.code == 0, told.err
    lines = told.out.splitlines()
    assert lines[0].startswith("cornflower / ray  (L* 42.0, a* 10.0, b* -50.0)")
    assert [line[:2] for line in lines if line[1:2] == "."] == ["1.", "2.", "3."]
    assert "unsteady" in told.out
    assert "3 mixes within ΔE00 20.0, from 3 tubes; --most N shows more, if there are." in flat(
        told.out
    )


def test_a_list_is_not_filled_up_with_what_is_far_off(run: Run, small: Sequence[str]) -> None:
    """Of all mixes of a blue, a yellow and a green, those within tolerance, or the nearest two."""
    near = run("mix", "cornflower / ray", "--most", 3, "--tolerance", 8, *small)
    far_off = [float(figure) for figure in re.findall(r"— ΔE00 ([\d.]+)", flat(near.out))]
    assert 0 < len(far_off) < 3
    assert max(far_off) <= 8
    none = flat(run("mix", "#ff0080", "--most", 5, *small).out)
    assert len(re.findall(r"— ΔE00", none)) == 2
    assert "None is within ΔE00 4.0: these are the nearest, mixed from 3 tubes." in none


def test_fewer_tubes_in_a_mix(run: Run, small: Sequence[str]) -> None:
    """Lemon and deep blue make a green; alone neither does."""
    green = ("mix", "#5a8a5a", "--tube", "lemon", "--tube", "deep blue", "--tolerance", 20)
    assert " : " in run(*green, *small).out
    told = run(*green, "--most-in-mix", 1, *small)
    assert told.code == 0, told.err
    assert " : " not in told.out
    assert "from 2 tubes, single tubes in a mix" in flat(told.out)
    told = run(*green, "--most-in-mix", 4, *small)
    assert told.code == 2
    assert "--most-in-mix: is 4; it must be from 1 to 3." in flat(told.err)


def test_only_the_tubes_at_hand_are_used(run: Run, small: Sequence[str]) -> None:
    told = run("mix", "#c8d030", "--tube", "lemon", "--tube", "lemon", *small)
    assert told.code == 0, told.err
    assert "Lemon alone" in told.out
    assert "Deep blue" not in told.out
    assert "from 1 tube." in told.out


def test_tubes_and_colours_are_called_by_name_in_any_capitals(
    run: Run, small: Sequence[str]
) -> None:
    told = run("mix", "Cornflower / RAY", "--tube", "DEEP  blue", "--tube", "LEMON", *small)
    assert told.code == 0, told.err
    assert "from 2 tubes" in flat(told.out)


def test_what_fades_is_said_and_can_be_left_out(run: Run) -> None:
    pink = ("mix", "petunia, neon pink / light edge", "--most", "1")
    pair = ("--tube", "vivid-pink", "--tube", "magenta")
    told = run(*pink, *pair)
    assert "fades in light" in flat(told.out)
    assert (
        "In light vivid pink (xanthene), fugitive (lightfastness V, very poor) fades. With"
        " --lightfastness II only tubes that last are mixed." in flat(told.out)
    )
    lasting = run(*pink, *pair, "--lightfastness", "II")
    assert "magenta (quinacridone) alone" in flat(lasting.out)
    assert "fade" not in lasting.out
    none = run(*pink, "--tube", "vivid-pink", "--lightfastness", "ii")
    assert none.code == 2
    assert none.err == (
        "--lightfastness: is II, but no tube at hand is better than V; ask for that, or less.\n"
    )


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (("#12345",), "COLOUR: is '#12345'; it must be written as #rrggbb"),
        (("blue",), "write it as #rrggbb"),
        (("101,0,0",), "L* must be a number from 0 to 100"),
        (("50,0",), "CIELAB takes three numbers"),
        (
            ("cornflower",),
            "names the flower 'cornflower' but none of its swatches; add one, such as"
            " 'cornflower / ray'; it has ray, heart.",
        ),
        (
            ("cornflower / stalk",),
            "the flower 'cornflower' has no swatch 'stalk'; it has ray, heart.",
        ),
        (("cornflour / ray",), "Did you mean 'cornflower'?"),
        (("#ffffff", "--tube", "lemmon"), "Did you mean 'lemon'?"),
        (("#ffffff", "--most", "0"), "--most: is 0; it must be from 1 to 100."),
        (("#ffffff", "--tolerance", "nan"), "--tolerance: is 'nan', which is not a plain number"),
        (("#ffffff", "--tolerance", "0"), "--tolerance: is 0; it must be from 0.01 to 20"),
    ],
)
def test_what_it_cannot_take_is_told(
    run: Run, small: Sequence[str], arguments: tuple[str, ...], message: str
) -> None:
    told = run("mix", *arguments, *small)
    assert told.code == 2
    assert message in told.err
    assert "Traceback" not in told.err


def test_colours_in_three_forms() -> None:
    demo = read_catalogue()
    assert lab_named("45, 60.5,-3", demo) == (45.0, 60.5, -3.0)
    # White of sRGB is the white of CIELAB (IEC 61966-2-1): L* 100, a* and b* 0.
    assert lab_named("#ffffff", demo) == pytest.approx((100, 0, 0), abs=0.01)
    flower = next(flower for flower in demo.flowers.values() if "," in flower.name)
    swatch = flower.swatches[-1]
    assert lab_named(f"{flower.name} / {swatch.name}", demo) == swatch.lab
    assert lab_named(f"{flower.name}/{swatch.name}", demo) == swatch.lab


def test_an_endless_argument_is_cut_in_the_message() -> None:
    with pytest.raises(InputError) as caught:
        lab_named("x" * 100_000, read_catalogue())
    assert len(str(caught.value)) < 500
