"""Minimal sets against trying everything in double precision, the plain way."""

import time
from dataclasses import dataclass, replace
from functools import partial
from itertools import combinations, product

import numpy as np
import pytest

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.difference import delta_e_2000
from fewtubes.coverage.reach import NO_TUBE, SetArray, _bytes_a_worker, find_reach
from fewtubes.coverage.remembered import no_larger
from fewtubes.errors import LimitError
from fewtubes.mixing.bare_paper import paper_differences
from fewtubes.mixing.deadline import Deadline
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.recipes import PARTS, STRENGTHS, RecipeSpace
from fewtubes.mixing.room import Room

PAINTBOXES = (
    ("magenta", "golden-yellow", "green-leaning-blue", "ultramarine", "warm-red", "lemon", "rose"),
    ("titanium-white", "cool-crimson", "dioxazine-violet", "cobalt-blue", "orange", "green-yellow"),
)

BestMatches = dict[tuple[int, ...], FloatArray]
"""Set of tubes by number → its best match with each sample [ΔE00], shape (samples,)."""


@dataclass(frozen=True, eq=False)
class Paintbox:
    """A few tubes, by their spectra (tubes, bands), under some optics."""

    K: FloatArray
    S: FloatArray
    optics: Optics
    space: RecipeSpace

    def recipes(self, chosen: tuple[int, ...]) -> FloatArray:
        """Return CIELAB of every recipe over a set, by formulas written out again.

        Kubelka's R = (1 − Rg (a − b coth bS)) ÷ (a − Rg + b coth bS), a = 1 + K/S, b = √(a² − 1);
        Saunderson's surface with k1 = 0.040 and k2 = 0.596; CIELAB by its cube roots.
        """
        loads = np.array(
            [
                [strength * part / sum(parts) for part in parts]
                for strength, parts in product(self.space.strengths, PARTS[len(chosen)])
            ]
        )
        K, S = loads @ self.K[list(chosen)], loads @ self.S[list(chosen)]
        a = 1 + K / S
        b = np.sqrt(a**2 - 1)
        coth = b / np.tanh(b * S)
        R = (1 - self.optics.ground * (a - coth)) / (a - self.optics.ground + coth)
        R = 0.040 + 0.960 * 0.404 * R / (1 - 0.596 * R)
        f = np.cbrt(R @ self.optics.weights / self.optics.white)
        return np.stack(
            [116 * f[:, 1] - 16, 500 * (f[:, 0] - f[:, 1]), 200 * (f[:, 1] - f[:, 2])], axis=-1
        )

    def paper(self) -> FloatArray:
        """Return CIELAB of the bare paper, by Saunderson's formula written out again."""
        R = 0.040 + 0.960 * 0.404 * self.optics.ground / (1 - 0.596 * self.optics.ground)
        f = np.cbrt(R @ self.optics.weights / self.optics.white)
        return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])

    def best(self, labs: FloatArray) -> BestMatches:
        """Return the best match of every set with every sample, shape (samples,) each."""
        return {(): np.asarray(delta_e_2000(self.paper(), labs))} | {
            chosen: np.asarray(delta_e_2000(self.recipes(chosen)[:, None], labs).min(axis=0))
            for size in (1, 2, 3)
            for chosen in combinations(range(len(self.K)), size)
        }

    def found(self, labs: FloatArray, tolerance: float) -> tuple[SetArray, ...]:
        """Return what the program finds."""
        return find_reach(
            self.K, self.S, labs, optics=self.optics, space=self.space, tolerance=tolerance
        )


def paintbox(
    catalogue: Catalogue,
    tubes: tuple[str, ...],
    *,
    paper: str = "cotton-white",
    light: str = "D65",
    thinnest: float = 0.0,
) -> Paintbox:
    """Return tubes of the demo on a paper under a light."""
    return Paintbox(
        K=np.array([catalogue.tubes[name].K for name in tubes]),
        S=np.array([catalogue.tubes[name].S for name in tubes]),
        optics=Optics.of(catalogue.papers[paper], catalogue.lights[light]),
        space=RecipeSpace.no_thinner_than(thinnest),
    )


def drawn_targets(box: Paintbox, seed: int, count: int) -> FloatArray:
    """Draw samples in reach, at the edge of it and far off, shape (count, 3)."""
    rng = np.random.default_rng(seed)
    sets = [c for size in (1, 2, 3) for c in combinations(range(len(box.K)), size)]
    labs = [rng.choice(box.recipes(sets[i])) for i in rng.integers(len(sets), size=count)]
    shifts = rng.normal(0, 1, (count, 3)) * rng.choice([0.5, 3, 9], (count, 1))
    return np.asarray(np.array(labs) + shifts)


def minimal(best: BestMatches, t: int, tolerance: float) -> set[frozenset[int]]:
    """Return the sets that reach a sample and of which no part does, by their definition.

    The empty set is one of them: it stands for the paper left bare.
    """
    reaching = [frozenset(chosen) for chosen, match in best.items() if match[t] <= tolerance]
    return {r for r in reaching if not any(other < r for other in reaching)}


def as_sets(rows: SetArray) -> list[frozenset[int]]:
    """Return rows of tube numbers as sets."""
    return [frozenset(int(i) for i in row if i != NO_TUBE) for row in rows]


@pytest.mark.parametrize("most", [1, 2])
@pytest.mark.parametrize("box_number", [0, 1])
def test_minimal_sets_of_fewer_tubes_are_those_of_an_exhaustive_search(
    catalogue: Catalogue, most: int, box_number: int
) -> None:
    """And those of three that are no larger."""
    box = paintbox(catalogue, PAINTBOXES[box_number])
    labs = drawn_targets(box, seed=23, count=12)
    best = {chosen: m for chosen, m in box.best(labs).items() if len(chosen) <= most}
    wide = box.found(labs, 4.0)
    few = replace(box, space=replace(box.space, most_tubes=most)).found(labs, 4.0)
    for t, rows in enumerate(few):
        assert set(as_sets(rows)) == minimal(best, t, 4.0)
        np.testing.assert_array_equal(rows, no_larger(wide[t], most))
    assert sum(map(len, few)) < sum(map(len, wide))
    assert any(len(rows) for rows in few)


@pytest.mark.parametrize("tolerance", [1.0, 2.5, 4.0, 8.0])
@pytest.mark.parametrize(
    ("box_number", "paper", "light", "thinnest"),
    [
        (0, "cotton-white", "D65", 0.0),
        (1, "cream", "D50", 0.0),
        (0, "ivory", "A", 0.1),
        (1, "cotton-white", "LED-B3", 0.5),
    ],
)
def test_minimal_sets_are_those_of_an_exhaustive_search(
    catalogue: Catalogue,
    *,
    box_number: int,
    paper: str,
    light: str,
    thinnest: float,
    tolerance: float,
) -> None:
    tubes = PAINTBOXES[box_number]
    box = paintbox(catalogue, tubes, paper=paper, light=light, thinnest=thinnest)
    labs = drawn_targets(box, seed=16, count=10)
    best = box.best(labs)
    found = box.found(labs, tolerance)
    assert len(found) == len(labs)
    for t, rows in enumerate(found):
        sets = as_sets(rows)
        assert set(sets) == minimal(best, t, tolerance)
        assert len(set(sets)) == len(sets)  # each once
    assert any(len(rows) for rows in found)


@pytest.mark.parametrize("tolerance", [12.0, 18.0, 20.0])
def test_greys_at_tolerances_that_only_just_reach_them(
    catalogue: Catalogue, tolerance: float
) -> None:
    """Near neutral the difference bends most; few tubes, so that much depends on single recipes."""
    box = paintbox(catalogue, ("coral", "ultramarine", "golden-yellow", "green-leaning-blue"))
    rng = np.random.default_rng(24)
    labs = np.stack([rng.uniform(15, 95, 60), *rng.normal(0, 1.5, (2, 60))], axis=-1)
    labs[0] = [34.639428922944035, -1.776633025684182, -0.20061995515134984]
    best = box.best(labs)
    for t, rows in enumerate(box.found(labs, tolerance)):
        assert set(as_sets(rows)) == minimal(best, t, tolerance), labs[t]


def test_hues_a_hair_from_opposite_are_decided_in_double_precision(catalogue: Catalogue) -> None:
    """The mean hue, Eq. (14), jumps there and the difference with it."""
    box = paintbox(catalogue, ("magenta",))
    box = Paintbox(box.K, box.S, box.optics, RecipeSpace(STRENGTHS[:1]))
    (lab,) = box.recipes((0,))
    decided = 0
    for away in np.linspace(0.1, 0.6, 12):
        across = [lab * [1, -away, -away] + [0, 0, side * 1e-9] for side in (-1, 1)]
        near, far = sorted(across, key=lambda one: float(delta_e_2000(lab, one)))
        least, most = (float(delta_e_2000(lab, one)) for one in (near, far))
        tolerance = (least + most) / 2
        if most - least < 0.1 or paper_differences(np.stack(across), box.optics).min() <= tolerance:
            continue
        decided += 1
        assert len(box.found(near[None], tolerance)[0]) == 1
        assert len(box.found(far[None], tolerance)[0]) == 0
    assert decided >= 5


def test_flowers_of_the_demo(catalogue: Catalogue) -> None:
    """More samples than fit into one word of a mask."""
    box = paintbox(catalogue, PAINTBOXES[0])
    swatches = [s for flower in catalogue.flowers.values() for s in flower.swatches][:70]
    labs = np.array([swatch.lab for swatch in swatches])
    assert len(labs) == 70
    best = box.best(labs)
    for t, rows in enumerate(box.found(labs, 4.0)):
        assert set(as_sets(rows)) == minimal(best, t, 4.0)


def test_the_form_of_the_answer(catalogue: Catalogue) -> None:
    box = paintbox(catalogue, PAINTBOXES[0])
    for rows in box.found(drawn_targets(box, seed=17, count=30), 5.0):
        assert rows.dtype == np.int16
        assert rows.shape == (len(rows), 3)
        sizes = [len(r) for r in as_sets(rows)]
        assert sizes == sorted(sizes)  # smallest first
        for row in rows.tolist():
            tubes = [i for i in row if i != NO_TUBE]
            assert tubes == sorted(tubes)
            assert row == tubes + [NO_TUBE] * (3 - len(tubes))


@pytest.mark.parametrize("size", [1, 2, 3])
def test_a_hair_decides_as_in_double_precision(catalogue: Catalogue, size: int) -> None:
    """The tolerance is set a billionth above or below the best match of a set."""
    box = paintbox(catalogue, PAINTBOXES[0][:size])
    whole = tuple(range(size))
    labs = drawn_targets(box, seed=18 + size, count=60)
    best = box.best(labs)
    decided = 0
    for t, lab in enumerate(labs):
        match = float(best[whole][t])
        if any(float(best[part][t]) <= match for part in best if part != whole):
            continue  # a part does as well: the whole set is not minimal
        if decided == 6:
            break
        decided += 1
        (above,) = box.found(lab[None], match + 1e-9)
        (below,) = box.found(lab[None], match - 1e-9)
        assert frozenset(whole) in as_sets(above)
        assert frozenset(whole) not in as_sets(below)
    assert decided >= 3


def test_the_order_of_tubes_and_samples_does_not_matter(catalogue: Catalogue) -> None:
    box = paintbox(catalogue, PAINTBOXES[1])
    labs = drawn_targets(box, seed=22, count=12)
    turned = Paintbox(box.K[::-1], box.S[::-1], box.optics, box.space)
    last = len(box.K) - 1
    there, back = box.found(labs, 3.0), turned.found(labs[::-1], 3.0)
    for rows, other in zip(there, back[::-1], strict=True):
        assert set(as_sets(rows)) == {frozenset(last - i for i in r) for r in as_sets(other)}


def test_more_tolerance_never_loses_a_sample(catalogue: Catalogue) -> None:
    box = paintbox(catalogue, PAINTBOXES[1])
    labs = drawn_targets(box, seed=23, count=12)
    strict, loose = box.found(labs, 2.0), box.found(labs, 5.0)
    for few, many in zip(strict, loose, strict=True):
        # Every set that reaches it strictly still holds one that reaches it loosely.
        assert all(any(part <= r for part in as_sets(many)) for r in as_sets(few))


@pytest.mark.parametrize("count", [1, 2, 3])
def test_very_few_tubes(catalogue: Catalogue, count: int) -> None:
    box = paintbox(catalogue, PAINTBOXES[0][:count])
    labs = np.concatenate([box.recipes((0,))[[3]], [[50.0, 120.0, 120.0]]])
    near, far = box.found(labs, 0.5)
    assert frozenset({0}) in as_sets(near)
    assert len(far) == 0


def test_bare_paper_needs_no_tube(catalogue: Catalogue) -> None:
    """A hair decides here too: the tolerance is a billionth above or below the paper's match."""
    box = paintbox(catalogue, PAINTBOXES[0][:4], paper="cream")
    far = [40.0, 30.0, 10.0]
    for shift in ([0.0, 0.0, 0.0], [-2.0, 0.5, 1.0], [1.0, 3.0, -2.0]):
        near = box.paper() + shift
        match = float(delta_e_2000(box.paper(), near))
        above, other = box.found(np.array([near, far]), match + 1e-9)
        assert above.tolist() == [[NO_TUBE] * 3]
        assert above.dtype == np.int16
        assert other.tolist() == box.found(np.array([far]), match + 1e-9)[0].tolist()
        below, _ = box.found(np.array([near, far]), match - 1e-9)
        assert frozenset() not in as_sets(below)


def test_no_samples(catalogue: Catalogue) -> None:
    assert paintbox(catalogue, PAINTBOXES[0][:3]).found(np.zeros((0, 3)), 4.0) == ()


def test_time_and_memory_that_run_out_are_told(
    catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch
) -> None:
    box = paintbox(catalogue, PAINTBOXES[0])
    labs = drawn_targets(box, seed=30, count=10)
    find = partial(find_reach, box.K, box.S, labs, optics=box.optics, space=box.space)
    late = Deadline(100.0, began=time.monotonic() - 99.9999)
    with pytest.raises(LimitError, match=r"7 tubes (make|was)"):
        find(tolerance=4.0, deadline=late)
    monkeypatch.setattr(Room, "now", lambda count: Room(count, 1000))
    with pytest.raises(LimitError, match=r"7 tubes .* memory"):
        find(tolerance=4.0)


def test_what_is_found_counts_as_memory_too(
    catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The tables fit, beside a worker's; the sets that are found do not."""
    box = paintbox(catalogue, PAINTBOXES[0])
    labs = drawn_targets(box, seed=31, count=30)
    each = _bytes_a_worker(len(box.K), 1)
    monkeypatch.setattr(Room, "now", lambda count: Room(count, 3 * each))
    assert len(box.found(labs, 8.0)) == 30
    monkeypatch.setattr("fewtubes.coverage.reach.BYTES_A_SET", each)
    with pytest.raises(LimitError, match=r"7 tubes .* memory"):
        box.found(labs, 8.0)


@pytest.mark.parametrize("by_processes", [False, True])
def test_any_number_of_workers_finds_the_same(
    catalogue: Catalogue, monkeypatch: pytest.MonkeyPatch, *, by_processes: bool
) -> None:
    """24 tubes make 24 · 23 · 22 ÷ 6 = 2,024 sets of three, which are handed out a chunk a time."""
    box = paintbox(catalogue, tuple(catalogue.tubes)[:24])
    labs = np.random.default_rng(32).uniform((30, -40, -40), (90, 60, 70), (20, 3))
    if by_processes:
        monkeypatch.setattr("fewtubes.coverage.reach.MANY_SETS", 2000)
        monkeypatch.setattr("fewtubes.coverage.reach.SETS_A_PROCESS", 500)
        monkeypatch.setattr("fewtubes.coverage.side_by_side.CHUNKS_AT_ONCE", 1)
    found = []
    for count in (1, 2, 4):
        monkeypatch.setattr("fewtubes.mixing.room.worker_count", lambda count=count: count)
        found.append(box.found(labs, 4.0))
    for other in found[1:]:
        for one, same in zip(found[0], other, strict=True):
            np.testing.assert_array_equal(one, same)
    assert max(map(len, found[0])) > 20


def test_strengths_the_tests_count_on() -> None:
    assert RecipeSpace().strengths == STRENGTHS
