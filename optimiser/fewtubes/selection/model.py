"""The integer program of record: its maths, in PuLP."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import gcd, inf
from time import perf_counter
from typing import Any

from fewtubes.selection.figures import LOOSENED, Figure, step_of
from fewtubes.selection.instance import ChoiceInstance, Palette
from fewtubes.selection.program_names import ProgramNames
from fewtubes.selection.purchase_rows import add_purchase

__all__ = [
    "Model",
    "at_least_value",
    "at_most",
    "build_model",
    "meets_demands",
    "reduced_sets",
]

WORST_CATEGORY = 5
"""The last lightfastness category (V)."""


@dataclass(frozen=True)
class Model:
    """The program in PuLP, with the parts that the stages need.

    Parameters
    ----------
    problem
        The `pulp.LpProblem`.
    buy
        x_i by tube number.
    cover
        y_t by sample number.
    expressions
        Each figure, in its steps, as a linear expression (the value without `free_weight`).
    steps
        How much of each figure counts 1 in its expression.
    units
        The least by which each figure can change: the greatest common divisor of its coefficients.
    free_weight
        Weight covered by owned tubes alone.
    at_least
        The figures whose expression may be less than the figure.
    must_serve
        `ChoiceInstance.must_serve`.
    """

    problem: Any
    buy: Mapping[int, Any]
    cover: Mapping[int, Any]
    expressions: Mapping[Figure, Any]
    steps: Mapping[Figure, int]
    units: Mapping[Figure, int]
    free_weight: int
    at_least: frozenset[Figure] = frozenset({Figure.WORST_FADE})
    must_serve: bool = False

    def tells_units_apart(self, figure: Figure) -> bool:
        """Whether the solver counts a figure in its units, and not in larger steps."""
        return self.steps[figure] <= self.units[figure]


def reduced_sets(instance: ChoiceInstance) -> tuple[tuple[tuple[int, ...], ...], ...]:
    """Return M_t for each sample t: what must still be bought, minimal, in ascending order.

    Owned tubes are dropped from each set; a sample covered by owned tubes alone gets ``((),)``.
    """
    return tuple(
        _minimal({frozenset(tubes) - instance.owned for tubes in sets})
        for sets in instance.minimal_sets
    )


def _minimal(sets: set[frozenset[int]]) -> tuple[tuple[int, ...], ...]:
    """Return the sets that contain no other one, sorted."""
    kept = (
        tubes
        for tubes in sets
        if not any(
            frozenset(fewer) in sets
            for size in range(len(tubes))
            for fewer in combinations(tubes, size)
        )
    )
    return tuple(sorted(tuple(sorted(tubes)) for tubes in kept))


def meets_demands(instance: ChoiceInstance, palette: Palette) -> bool:
    """Return whether a palette meets every demand, in whole numbers."""
    return (
        instance.must_have.issubset(palette.bought)
        and palette.cost <= instance.budget
        and len(palette.bought) <= instance.most_tubes
        and palette.value >= instance.least_value
        and not instance.doubles_in(palette.bought)
        and not instance.idle_in(palette.bought)
    )


def build_model(
    instance: ChoiceInstance,
    *,
    names: ProgramNames | None = None,
    in_steps: bool = False,
    deadline: float = inf,
) -> Model:
    """Build the integer program that the module's docstring states, for one instance.

    Parameters
    ----------
    instance
        The instance.
    names
        What tubes and samples are called in it; their numbers if None.
    in_steps
        Whether figures are counted in steps (`step_of`), so that the solver's tolerances are small
        beside one; else in ones. A bound on a figure that is not counted in its units is then
        loosened by `LOOSENED` steps, so that it cuts off nothing.
    deadline
        Value of `perf_counter` after which to give up.

    Raises
    ------
    TimeoutError
        If the deadline comes first.

    Notes
    -----
    Numbers: w_t weight, p_i price, f_i lightfastness category (1 best – 5), all whole.
    Sets: tubes i that are not owned, samples t that owned tubes alone do not cover, and M_t, the
    minimal sets of tubes still to be bought that cover t. Variables::

        x_i    ∈ {0, 1}   buy_i               tube i is bought
        y_t    ∈ [0, 1]   covered_t           sample t is covered
        z_t,r  ≥ 0        held_t__i__j__k     set r = {i, j, k} ∈ M_t is held, and counts for t
        v      ∈ [0, 5]   worst_lightfastness

    F are the tubes that fade, none where the price goes before. Lexicographic: max Σ w_t y_t, then
    min Σ x_i, min Σ_{i ∈ F} x_i, min Σ p_i x_i, min v, min Σ f_i x_i. Subject to::

        Σ p_i x_i ≤ budget                      budget
        Σ x_i ≤ most tubes                      most_tubes
        x_i = 1            i ∈ must have        must_have_i
        x_i + x_j ≤ 1      i, j one paint       one_of__i__j     (unless both are must-have)
        x_i = 0            water makes it of an owned tube       spare_i
        Σ w_t y_t ≥ least value                 least_value   (weight covered for free taken off)
        y_t ≤ Σ_{r ∈ M_t} z_t,r    each t       covered_t__needs_a_set
        Σ_{r ∋ i} z_t,r ≤ x_i      each t, i    sets_of_t__need_tube_i
        f_i x_i ≤ v                each i       lightfastness_i

    With x whole, a set that is not wholly bought has z = 0, and one that is may have z = 1; so
    the largest y is whole too and need not be declared so.

    Under terms Σ p_i x_i gives way to what leaves the purse, and the variables and constraints of
    the purchase are added (`add_purchase`). Where the paint needed depends on the palette, this is
    a least: the program then asks for no more than each tube needs in any palette, and the cost of
    what it finds is counted anew, as every figure is (`fewtubes.selection.stage`).
    """
    import pulp

    problem = pulp.LpProblem("choice_of_tubes", pulp.LpMaximize)
    sets = reduced_sets(instance)
    names = names or ProgramNames.numbers(instance)
    free = sum(w for w, sets_t in zip(instance.weights, sets, strict=True) if sets_t == ((),))
    open_samples = [t for t, sets_t in enumerate(sets) if sets_t and sets_t != ((),)]
    tubes = [i for i in range(instance.tube_count) if i not in instance.owned]

    x = {i: problem.add_variable(f"buy_{names.tubes[i]}", cat=pulp.LpBinary) for i in tubes}
    y = {t: problem.add_variable(f"covered_{names.samples[t]}", 0, 1) for t in open_samples}
    v = problem.add_variable("worst_lightfastness", 0, WORST_CATEGORY)

    terms: dict[Figure, list[tuple[int, Any]]] = {
        Figure.VALUE: [(instance.weights[t], y[t]) for t in open_samples],
        Figure.TUBES: [(1, x[i]) for i in tubes],
        Figure.FADING: [(1, x[i]) for i in tubes if i in instance.fading],
        Figure.COST: [(instance.prices[i], x[i]) for i in tubes]
        if instance.terms is None
        else add_purchase(problem, x, instance.terms, names),
        Figure.WORST_FADE: [(1, v)],
        Figure.FADE_SUM: [(instance.fades[i], x[i]) for i in tubes],
    }
    units = {figure: max(1, gcd(*(k for k, _ in terms[figure]))) for figure in Figure}
    steps = dict.fromkeys(Figure, 1)
    if in_steps:
        steps = {
            figure: step_of(sum(abs(k) for k, _ in terms[figure]), units[figure])
            for figure in Figure
        }
    expressions = {
        figure: pulp.lpSum((k / step if step > 1 else k) * term for k, term in terms[figure])
        for figure, step in steps.items()
    }
    lower = {Figure.WORST_FADE, Figure.COST} if instance.must_serve else {Figure.WORST_FADE}
    model = Model(
        problem,
        x,
        y,
        expressions,
        steps,
        units,
        free,
        at_least=frozenset(lower),
        must_serve=instance.must_serve,
    )
    problem.setObjective(expressions[Figure.VALUE])
    if tubes:
        problem += at_most(model, Figure.COST, instance.budget), "budget"
        problem += at_most(model, Figure.TUBES, instance.most_tubes), "most_tubes"
    for i in sorted(instance.must_have):
        problem += x[i] == 1, f"must_have_{names.tubes[i]}"
    _leave_out_doubles(problem, x, instance, names.tubes)
    if instance.least_value > free and open_samples:
        problem += at_least_value(model, instance.least_value), "least_value"
    for t in open_samples:
        if perf_counter() > deadline:
            raise TimeoutError
        _add_sample(problem, x, y[t], sets[t], sample=names.samples[t], tubes=names.tubes)
    for i in tubes:
        problem += instance.fades[i] * x[i] <= v, f"lightfastness_{names.tubes[i]}"
    return model


def _leave_out_doubles(
    problem: Any, x: Mapping[int, Any], instance: ChoiceInstance, tubes: Sequence[str]
) -> None:
    """Add that of two tubes that are one paint only one is bought, by name."""
    for i, j in sorted(instance.not_together):
        problem += x[i] + x[j] <= 1, f"one_of__{tubes[i]}__{tubes[j]}"
    for i in sorted(instance.ruled_out):
        problem += x[i] == 0, f"spare_{tubes[i]}"


def at_least_value(model: Model, value: int) -> Any:
    """Return the constraint that no palette of at least this value fails."""
    step = model.steps[Figure.VALUE]
    loosened = 0 if model.tells_units_apart(Figure.VALUE) else LOOSENED
    return model.expressions[Figure.VALUE] >= (value - model.free_weight) / step - loosened


def at_most(model: Model, figure: Figure, most: int) -> Any:
    """Return the constraint that a figure is at most `most`, loosened against rounding."""
    loosened = 0 if model.tells_units_apart(figure) else LOOSENED
    return model.expressions[figure] <= most / model.steps[figure] + loosened


def _add_sample(
    problem: Any,
    x: Mapping[int, Any],
    y_t: Any,
    sets: tuple[tuple[int, ...], ...],
    *,
    sample: str,
    tubes: Sequence[str],
) -> None:
    """Add z_t,r and the two families of constraints that tie a sample t to the tubes, by name."""
    import pulp

    z = {
        r: problem.add_variable(f"held_{sample}__{'__'.join(tubes[i] for i in r)}", 0) for r in sets
    }
    problem += y_t <= pulp.lpSum(z.values()), f"covered_{sample}__needs_a_set"
    holding: dict[int, list[Any]] = {}
    for r in sets:
        for i in r:
            holding.setdefault(i, []).append(z[r])
    for i in sorted(holding):
        problem += pulp.lpSum(holding[i]) <= x[i], f"sets_of_{sample}__need_tube_{tubes[i]}"
