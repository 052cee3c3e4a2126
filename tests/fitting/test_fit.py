"""What a fit is worth, and what it refuses: invented paints of other shapes than it knows."""

from dataclasses import replace

import numpy as np
import pytest
from tests.fitting.invented_paints import InventedPaints, loads_of_mixtures, painted_sheet

from fewtubes.catalogue.limits import COEFFICIENT
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.colour.cielab import lab_to_xyz, xyz_to_lab
from fewtubes.colour.difference import delta_e_2000
from fewtubes.colour.display import lab_to_linear
from fewtubes.coverage.cache import Cache
from fewtubes.errors import InputError
from fewtubes.fitting.fit import Fit, fit
from fewtubes.fitting.grounds import Grounds
from fewtubes.fitting.own_paper import paper_like
from fewtubes.fitting.settings import FitSettings
from fewtubes.fitting.sheet import (
    PaintedSwatch,
    PaintedTube,
    ScreenColour,
    Seen,
    SeenLab,
    SeenReflectance,
    SwatchSheet,
)
from fewtubes.mixing.bare_paper import paper_lab
from fewtubes.mixing.mixture import Optics, film_lab
from fewtubes.mixing.surface import beneath_surface

PAINTS = 7
"""Half of a benchmark's sheet (tests/benchmarks/bench_fit.py), for time's sake."""


SEEDS = range(10, 18)
"""Of the sheets whose mixtures are compared; one alone is lucky or not."""


def _paints(seed: int) -> tuple[InventedPaints, np.random.Generator]:
    random = np.random.default_rng(seed)
    return InventedPaints.drawn(random, PAINTS), random


@pytest.fixture(scope="module")
def sheet(grounds: Grounds) -> SwatchSheet:
    paints, random = _paints(1)
    return painted_sheet(paints, random, grounds.optics)


@pytest.fixture(scope="module")
def fitted(sheet: SwatchSheet, shared_cache: Cache) -> Fit:
    return fit(sheet, cache=shared_cache)


def _compared(
    seed: int, grounds: Grounds, cache: Cache, *, as_hex: bool
) -> tuple[np.ndarray, np.ndarray]:
    """Return differences of mixtures, and what nine in ten are told to be within, (mixtures,)."""
    paints, random = _paints(seed)
    found = fit(painted_sheet(paints, random, grounds.optics, as_hex=as_hex), cache=cache)
    loads = loads_of_mixtures(random, PAINTS)

    def mixed(K: np.ndarray, S: np.ndarray) -> np.ndarray:
        return film_lab(loads @ K, loads @ S, grounds.optics)

    K, S = (np.array([getattr(tube, part) for tube in found.tubes]) for part in ("K", "S"))
    computed = mixed(K, S)
    draws = [
        mixed(
            np.array([tube.likely.K[draw] for tube in found.tubes]),
            np.array([tube.likely.S[draw] for tube in found.tubes]),
        )
        for draw in range(len(found.tubes[0].likely.K))
    ]
    told = np.quantile(delta_e_2000(np.array(draws), computed), 0.9, axis=0)
    return delta_e_2000(paints.labs(loads, grounds.optics), computed), told


@pytest.mark.parametrize(("as_hex", "median", "most"), [(False, 1.2, 2.5), (True, 1.6, 4.0)])
def test_mixtures_of_fitted_tubes_are_near_those_of_the_true_ones(
    grounds: Grounds, shared_cache: Cache, as_hex: bool, median: float, most: float
) -> None:
    # The limits are what the project asks of itself; the benchmark has the figures of many sheets.
    pairs = [_compared(seed, grounds, shared_cache, as_hex=as_hex) for seed in SEEDS]
    off, told = (np.concatenate(part) for part in zip(*pairs, strict=True))
    assert np.median(off) <= median
    assert np.quantile(off, 0.9) <= most
    assert 0.8 <= (off <= told).mean() <= 0.97


def test_nine_in_ten_of_a_tubes_mixtures_are_within_what_is_told(
    grounds: Grounds, shared_cache: Cache
) -> None:
    # Its partners were fitted as well, and are in doubt like itself.
    paints, random = _paints(2)
    found = fit(painted_sheet(paints, random, grounds.optics), cache=shared_cache)
    K, S = (np.array([getattr(tube, part) for tube in found.tubes]) for part in ("K", "S"))
    loads = loads_of_mixtures(random, PAINTS, weakest=0.124)
    off = delta_e_2000(
        paints.labs(loads, grounds.optics), film_lab(loads @ K, loads @ S, grounds.optics)
    )
    of_each = [
        np.mean(off[loads[:, place] > 0] <= tube.spread.most)
        for place, tube in enumerate(found.tubes)
    ]
    assert 0.85 <= np.mean(of_each) <= 0.98


def test_the_same_sheet_gives_the_same_fit(
    sheet: SwatchSheet, fitted: Fit, shared_cache: Cache
) -> None:
    alone = fit(replace(sheet, tubes=sheet.tubes[:1]), cache=shared_cache)
    assert np.array_equal(alone.tubes[0].K, fitted.tubes[0].K)
    assert np.array_equal(alone.tubes[0].likely.S, fitted.tubes[0].likely.S)
    other = fit(
        replace(sheet, tubes=sheet.tubes[:1]), cache=shared_cache, settings=FitSettings(seed=2)
    )
    assert not np.array_equal(other.tubes[0].likely.S, fitted.tubes[0].likely.S)


def test_what_is_told_of_each_tube(fitted: Fit, grounds: Grounds) -> None:
    for tube in fitted.tubes:
        K, S = tube.likely.K, tube.likely.S
        assert K.shape == S.shape == (48, 36)
        assert (K > 0).all()
        assert (S > 0).all()
        assert tube.spread.middle < tube.spread.most
        for swatch in tube.swatches:
            lab = film_lab(swatch.strength * tube.K, swatch.strength * tube.S, grounds.optics)
            assert swatch.lab == pytest.approx(lab)  # a film over paper, computed the long way
            assert isinstance(swatch.painted.colour, SeenLab)
            seen = np.array(swatch.painted.colour.lab)
            assert swatch.difference == pytest.approx(float(delta_e_2000(lab, seen)))
            # Predicted without having been looked at, it is hardly nearer than when it was.
            assert swatch.left_out is not None
        own = np.mean([swatch.difference for swatch in tube.swatches])
        assert own < np.mean([swatch.left_out or 0.0 for swatch in tube.swatches])
        assert "black line" in tube.notes[0]  # nothing else tells how much it hides


def test_more_washes_make_surer(grounds: Grounds, shared_cache: Cache) -> None:
    def spread(*strengths: float) -> float:
        paints, random = _paints(3)
        sheet = painted_sheet(paints, random, grounds.optics, strengths=strengths)
        found = fit(replace(sheet, tubes=sheet.tubes[::3]), cache=shared_cache)
        return float(np.mean([tube.spread.most for tube in found.tubes]))

    assert spread(1, 0.25) > spread(1, 0.5, 0.25, 0.125) > spread(*(1, 0.5, 0.25, 0.125) * 3)


def test_the_advice_is_worth_following(grounds: Grounds, shared_cache: Cache) -> None:
    paints, random = _paints(4)
    few = painted_sheet(paints, random, grounds.optics, strengths=(1, 0.5))
    few = replace(few, tubes=few.tubes[::3])
    advised = fit(few, cache=shared_cache)
    told, came = [], []
    for place in range(3):
        one = advised.tubes[place].advice
        assert one is not None
        # The same strokes, and then the one that was advised.
        alone = InventedPaints(paints.K[[3 * place]], paints.S[[3 * place]])
        further = painted_sheet(
            alone, random, grounds.optics, strengths=(one.strength,), over_black=one.over_black
        ).tubes[0]
        tube = few.tubes[place]
        tube = replace(tube, swatches=(*tube.swatches, further.swatches[-1]))
        found = fit(_with(few, place, tube), cache=shared_cache)
        told.append(one.spread.most)
        came.append(found.tubes[place].spread.most)
        assert one.spread.most < advised.tubes[place].spread.most
    # Straight lines near the estimate foretell the narrowing, tube by tube only roughly.
    assert np.mean(came) < np.mean([tube.spread.most for tube in advised.tubes])
    assert np.mean(told) == pytest.approx(np.mean(came), rel=0.15)


def test_a_stroke_over_black_settles_how_much_a_paint_hides(
    grounds: Grounds, shared_cache: Cache
) -> None:
    def off(over_black: bool) -> float:
        paints, random = _paints(5)
        found = fit(
            painted_sheet(paints, random, grounds.optics, over_black=over_black),
            cache=shared_cache,
        )
        S = np.array([tube.S.mean() for tube in found.tubes])
        return float(np.abs(np.log(S / paints.S.mean(axis=1))).mean())

    assert off(True) < 0.5 * off(False)


def test_the_label_tells_how_much_a_paint_hides(sheet: SwatchSheet, shared_cache: Cache) -> None:
    profiles = read_catalogue().pigments.values()
    hiding = max(profiles, key=lambda profile: float(profile.S.mean()))
    tube = sheet.tubes[0]
    fits = [
        fit(replace(sheet, tubes=(replace(tube, codes=codes),)), cache=shared_cache).tubes[0]
        for codes in ((), (hiding.code,))
    ]
    assert fits[1].S.mean() > 2 * fits[0].S.mean()
    assert "from its pigments" in fits[1].notes[0]


def _refusal(sheet: SwatchSheet, cache: Cache) -> str:
    with pytest.raises(InputError) as caught:
        fit(sheet, cache=cache)
    return str(caught.value)


def _with(sheet: SwatchSheet, place: int, tube: PaintedTube) -> SwatchSheet:
    tubes = list(sheet.tubes)
    tubes[place] = tube
    return replace(sheet, tubes=tuple(tubes))


def test_a_wash_darker_than_the_stroke(sheet: SwatchSheet, shared_cache: Cache) -> None:
    tube = sheet.tubes[5]
    full, *between, thin = tube.swatches
    turned = (
        replace(full, colour=thin.colour), *between, replace(thin, colour=full.colour)
    )  # fmt: skip
    told = _refusal(_with(sheet, 5, replace(tube, swatches=turned)), shared_cache)
    assert "paint 6, 0.125" in told
    assert "has a wash of strength 0.125 that is darker than the one of strength 1" in told


def test_a_stroke_and_its_half_that_changed_places(sheet: SwatchSheet, shared_cache: Cache) -> None:
    # A pink whose stroke and half-strength wash were typed in the wrong order: a slip of the hand
    # puts a third more paint somewhere, and not twice as much.
    full, half, *_ = sheet.tubes[3].swatches
    turned = (
        replace(full, colour=SeenLab((53.2, 53.0, 1.6))),
        replace(half, colour=SeenLab((41.6, 60.3, 8.9))),
    )
    tube = replace(sheet.tubes[3], swatches=turned)
    told = _refusal(replace(sheet, tubes=(tube,)), shared_cache)
    assert "'paint 4' has a wash of strength 0.5 that is darker than the one of strength 1" in told


def test_a_paper_just_too_dark_is_not_told_as_bright_enough(
    sheet: SwatchSheet, shared_cache: Cache
) -> None:
    told = _refusal(replace(sheet, paper=SeenLab((79.97, 0.0, 15.02))), shared_cache)
    assert "has L* 79.97 and chroma 15.02," in told
    assert "the picture is too dark or tinted" in told


def _more_contrasty(sheet: SwatchSheet, optics: Optics, darkest: float) -> SwatchSheet:
    """Return a sheet as a picture shows it that takes a black surface to Y = `darkest`."""
    white = optics.white
    assert isinstance(sheet.paper, SeenLab)
    paper = lab_to_xyz(np.array(sheet.paper.lab), white)
    # A black surface reflects 4 % (Fresnel, index 1.5); the paper stays as it is.
    share = (paper[1] / white[1] - darkest) / (paper[1] / white[1] - 0.04)

    def shown(colour: Seen) -> SeenLab:
        assert isinstance(colour, SeenLab)
        xyz = lab_to_xyz(np.array(colour.lab), white)
        L, a, b = xyz_to_lab(np.maximum(paper + share * (xyz - paper), 1e-6), white).tolist()
        return SeenLab((L, a, b))

    tubes = [
        replace(
            tube,
            swatches=tuple(
                replace(swatch, colour=shown(swatch.colour)) for swatch in tube.swatches
            ),
        )
        for tube in sheet.tubes
    ]
    bare = SeenLab((float(116 * np.cbrt(darkest) - 16), 0.0, 0.0))
    return replace(sheet, tubes=tuple(tubes), black=bare)


def test_a_picture_with_deep_blacks_tells_the_same_paints(
    grounds: Grounds, shared_cache: Cache
) -> None:
    """Phones and pickers show a black line at L* 15 that, by its surface alone, has 24."""
    paints, random = _paints(7)
    sheet = painted_sheet(paints, random, grounds.optics, over_black=True, noise=0.3, hand=0.02)
    sheet = replace(sheet, tubes=sheet.tubes[3:6])  # a pink, a violet and a blue: deep ones
    contrasty = _more_contrasty(sheet, grounds.optics, 0.02)
    assert Grounds(grounds.optics, grounds.black).contrast == 1
    for plain, deep in zip(
        fit(sheet, cache=shared_cache).tubes, fit(contrasty, cache=shared_cache).tubes, strict=True
    ):
        assert not [note for note in deep.notes if "is off by" in note]
        assert deep.mean_off < 1
        loads = np.array([[1.0], [0.5], [0.25], [0.125]])
        colours = [film_lab(loads * t.K, loads * t.S, grounds.optics) for t in (plain, deep)]
        assert delta_e_2000(*colours).max() < 1.5
    without = fit(replace(contrasty, black=None), cache=shared_cache).tubes
    assert all(tube.mean_off < 2 for tube in without)  # the darkest swatch tells most of it


def test_a_lone_stroke_over_black_is_not_held_against_the_others(
    grounds: Grounds, shared_cache: Cache
) -> None:
    """How much a white hides cannot be seen on white paper, and so is no fault of its swatch."""
    light = (("a", 1.0, False, 94.5, 4.5), ("b", 0.5, False, 94.4, 4.4), ("c", 1.0, True, 57.0, -1))
    swatches = tuple(
        PaintedSwatch(where, strength, black, SeenLab((L, 0.0, b)), 1.5)
        for where, strength, black, L, b in light
    )
    tube = PaintedTube("my white", (), swatches)
    sheet = SwatchSheet("by hand", SeenLab((94.6, 0.0, 4.5)), (tube,), SeenLab((25.0, 0.0, 0.0)))
    (white,) = fit(sheet, cache=shared_cache).tubes
    assert white.swatches[-1].left_out is None
    assert white.notes == ()
    assert white.S.mean() > 0.2  # it hides all the same


def test_a_wash_that_would_hardly_help_is_not_asked_for(
    grounds: Grounds, shared_cache: Cache
) -> None:
    # Of a whole row of a card a further wash is worth a tenth of what is left to gain, about 0.2.
    row = painted_sheet(*_paints(4), grounds.optics, over_black=True)
    row = replace(row, tubes=row.tubes[:2])
    assert all(tube.advice is None for tube in fit(row, cache=shared_cache).tubes)
    few = painted_sheet(*_paints(4), grounds.optics, strengths=(1, 0.25))
    found = fit(few, cache=shared_cache).tubes
    gains = [tube.spread.most - tube.advice.spread.most for tube in found if tube.advice]
    assert len(gains) > len(found) / 2
    assert min(gains) >= 0.1  # so that the figures told differ


def test_a_tube_with_too_little(sheet: SwatchSheet, shared_cache: Cache) -> None:
    tube = sheet.tubes[0]
    for swatches, told in (
        (tube.swatches[:1], "has only one swatch over paper"),
        (tube.swatches * 6, "has 24 swatches; at most 20 of a tube are fitted"),
        (tube.swatches[:1] * 2, "has no two strengths over paper"),
        (tube.swatches[1:], "has no full stroke over paper"),
    ):
        assert told in _refusal(_with(sheet, 0, replace(tube, swatches=swatches)), shared_cache)


@pytest.mark.parametrize(
    ("lab", "figures"),
    [
        ((70.0, 0.0, 0.0), "L* 70 and chroma 0,"),
        ((79.7, 0.0, 0.0), "L* 79.7 and chroma 0,"),
        ((94.0, 0.0, 15.2), "L* 94 and chroma 15.2,"),
    ],
)
def test_a_paper_that_is_not_white(
    sheet: SwatchSheet, shared_cache: Cache, lab: tuple[float, float, float], figures: str
) -> None:
    told = _refusal(replace(sheet, paper=SeenLab(lab)), shared_cache)
    assert f"paper: has {figures}" in told
    assert "white paper" in told


def test_paint_that_is_brighter_than_the_paper(sheet: SwatchSheet, shared_cache: Cache) -> None:
    tube = sheet.tubes[0]
    glowing = replace(tube.swatches[0], colour=SeenLab((103.0, -10.0, 60.0)))
    told = _refusal(
        _with(sheet, 0, replace(tube, swatches=(glowing, *tube.swatches[1:]))), shared_cache
    )
    assert "brighter than the bare paper, as metallic and fluorescent paints are" in told


def test_a_white_paint_that_hides_may_be_brighter_than_a_cream_paper(
    grounds: Grounds, shared_cache: Cache
) -> None:
    # Kubelka and Munk's film lies between its ground and its own thick film, which is white here.
    white = InventedPaints(np.full((1, 36), 0.001), np.full((1, 36), 3.0))
    random = np.random.default_rng(8)
    usual = read_catalogue().papers["cotton-white"]
    cream = paper_like(read_catalogue().papers, usual, SeenLab((91.0, 1.0, 11.0)), grounds.optics)
    optics = replace(grounds.optics, ground=beneath_surface(cream.reflectance))
    sheet = painted_sheet(white, random, optics, over_black=True)
    found = fit(sheet, cache=shared_cache).tubes[0]
    true = white.labs(np.ones((1, 1)), optics)[0]
    assert true[0] > paper_lab(optics)[0] + 1  # otherwise this test shows nothing
    assert delta_e_2000(film_lab(found.K, found.S, optics), true) < 3


def test_a_stroke_over_black_that_is_lighter_than_over_paper(
    sheet: SwatchSheet, shared_cache: Cache
) -> None:
    tube = sheet.tubes[2]
    pearly = replace(tube.swatches[0], over_black=True, colour=SeenLab((75.0, 0.0, 0.0)))
    told = _refusal(_with(sheet, 2, replace(tube, swatches=(*tube.swatches, pearly))), shared_cache)
    assert "is lighter over black than over paper (paint 3, 1)" in told


def test_a_measured_paper_that_no_paper_is(sheet: SwatchSheet, shared_cache: Cache) -> None:
    measured = np.full(36, 0.88)
    measured[0] = 0.01
    told = _refusal(replace(sheet, paper=SeenReflectance(measured)), shared_cache)
    assert "invented.csv, paper: is 0.01; it must be a number from 0.05 to 1" in told


def test_a_black_line_that_is_not_black(sheet: SwatchSheet, shared_cache: Cache) -> None:
    told = _refusal(replace(sheet, black=SeenLab((50.2, 0.0, 0.0))), shared_cache)
    assert "black line: has L* 50.2, which is no black (L* at most 50)" in told


def test_a_wash_hardly_weaker_than_the_stroke_may_be_darker_by_a_slip(
    sheet: SwatchSheet, shared_cache: Cache
) -> None:
    tube = sheet.tubes[2]
    full, _, quarter, _ = tube.swatches
    # The stroke and the wash are off by two standard deviations of a hand of 30 %, each its way.
    swatches = (
        replace(full, colour=quarter.colour),
        replace(quarter, strength=0.9, colour=full.colour),
    )
    slipped = replace(sheet, tubes=(replace(tube, swatches=swatches),))
    fit(slipped, cache=shared_cache, settings=FitSettings(hand=0.3))
    # With a surer hand it is no slip.
    assert "wash of strength 0.9 that is darker than" in _refusal(slipped, shared_cache)


@pytest.mark.parametrize("black", ["#000000", "#101010", "#242424"])
def test_however_deep_a_black_is_a_catalogue_can_hold_it(
    grounds: Grounds, shared_cache: Cache, black: str
) -> None:
    channels = tuple(int(black[place : place + 2], 16) for place in (1, 3, 5))
    colours = ScreenColour((channels[0], channels[1], channels[2])), ScreenColour((119, 119, 119))
    swatches = tuple(
        PaintedSwatch(f"x {strength}", strength, over_black=False, colour=colour, noise=1.5)
        for strength, colour in zip((1.0, 0.25), colours, strict=True)
    )
    sheet = SwatchSheet("by hand", None, (PaintedTube("black", (), swatches),))
    likely = fit(sheet, cache=shared_cache).tubes[0].likely
    assert all(COEFFICIENT.admits(value) for value in (likely.K.max(), likely.S.max()))


def test_a_label_of_unknown_pigments_says_nothing(sheet: SwatchSheet, shared_cache: Cache) -> None:
    tube = replace(sheet.tubes[0], codes=("PB999", "PB29"))
    (found,) = fit(replace(sheet, tubes=(tube,)), cache=shared_cache).tubes
    assert "judged from what paints are like" in found.notes[0]


def test_screen_colours_need_daylight(sheet: SwatchSheet, shared_cache: Cache) -> None:
    of_screen = replace(sheet, paper=ScreenColour((244, 241, 232)), tubes=sheet.tubes[:1])
    with pytest.raises(InputError, match="colours of a screen are those of daylight"):
        fit(of_screen, light="A", cache=shared_cache)
    demo = read_catalogue()
    without = replace(demo, lights={"A": demo.lights["A"]})
    with pytest.raises(InputError, match="catalogue: has no daylight"):
        fit(of_screen, catalogue=without, cache=shared_cache)


def test_two_tubes_mixed_up(sheet: SwatchSheet, shared_cache: Cache) -> None:
    yellow, blue = sheet.tubes[0], sheet.tubes[5]

    def half_of(tube: PaintedTube, other: PaintedTube) -> PaintedTube:
        full, half, *rest = tube.swatches
        return replace(tube, swatches=(full, replace(half, colour=other.swatches[1].colour), *rest))

    mixed = _with(_with(sheet, 0, half_of(yellow, blue)), 5, half_of(blue, yellow))
    told = _refusal(mixed, shared_cache)
    assert "seem to have changed places" in told
    assert "'paint 1'" in told
    assert "'paint 6'" in told


def test_one_foreign_swatch_is_told_and_does_not_end_the_fit(
    sheet: SwatchSheet, shared_cache: Cache
) -> None:
    tube = sheet.tubes[3]
    half = replace(tube.swatches[1], colour=SeenLab((60.0, -30.0, 20.0)))
    swatches = (tube.swatches[0], half, *tube.swatches[2:])
    found = fit(replace(sheet, tubes=(replace(tube, swatches=swatches),)), cache=shared_cache)
    assert any("strength 0.5" in note and "paint it again" in note for note in found.tubes[0].notes)


def test_a_cream_paper_is_fitted_as_it_is(sheet: SwatchSheet, shared_cache: Cache) -> None:
    cream = SeenLab((93.0, 1.0, 9.0))
    found = fit(replace(sheet, paper=cream, tubes=sheet.tubes[:1]), cache=shared_cache)
    assert found.paper.id == "swatch-paper"
    named = fit(
        replace(sheet, paper=cream, tubes=sheet.tubes[:1]), paper="cotton-white", cache=shared_cache
    )
    assert named.paper.id == "cotton-white"
    assert found.notes == ()
    assert "The paper seen on the sheet is ΔE00" in named.notes[0]


@pytest.mark.parametrize(("field", "value"), [("hand", 0), ("hand", 1.5), ("seed", -1)])
def test_settings_out_of_bounds(field: str, value: float) -> None:
    with pytest.raises(InputError, match=field):
        FitSettings(**{field: value})  # type: ignore[arg-type]


def test_what_a_screen_cannot_show_is_not_held_against_a_paint(
    grounds: Grounds, shared_cache: Cache
) -> None:
    paints, random = _paints(6)
    sheet = painted_sheet(paints, random, grounds.optics, as_hex=True, noise=0.05, hand=0.01)
    cyan = [
        tube
        for tube in sheet.tubes
        if any(isinstance(s.colour, ScreenColour) and 0 in s.colour.channels for s in tube.swatches)
    ]
    assert cyan  # otherwise this test shows nothing
    for tube in fit(replace(sheet, tubes=tuple(cyan)), cache=shared_cache).tubes:
        assert tube.mean_off < 1
        assert len(tube.notes) == 1  # of the black line alone
        # Beyond the screen's gamut the paint is more than what was shown.
        vivid = [
            swatch for swatch in tube.swatches if lab_to_linear(np.array(swatch.lab)).min() < -0.01
        ]
        assert all(swatch.difference < 1 for swatch in vivid)
