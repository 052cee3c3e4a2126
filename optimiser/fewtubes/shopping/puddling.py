"""The fewest puddles for a chosen palette: which mixes, and which of them serves which colour.

The choice is not touched: palette and coverage stay as they are.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from time import perf_counter

from fewtubes.mixing.matching import Match, recipe_lab
from fewtubes.mixing.reached import Mix
from fewtubes.mixing.recipes import Recipe
from fewtubes.selection.covering import Cover
from fewtubes.shopping.choose import Chosen, Taken
from fewtubes.shopping.mix_table import MixTable
from fewtubes.shopping.mixing_order import in_order
from fewtubes.shopping.puddles import Puddle, Puddles, Puddling
from fewtubes.shopping.question import Question
from fewtubes.shopping.subjects import Subject, subjects_of

__all__ = ["Mixed", "mixed_for"]


@dataclass(frozen=True, eq=False)
class Mixed:
    """The recipes taken, and the puddles that they make."""

    matches: tuple[Match | None, ...]
    """For each sample, as in `Chosen`."""
    puddles: Puddles


def mixed_for(
    question: Question,
    chosen: Chosen | Taken,
    *,
    seconds: float,
    puddling: Puddling = Puddling.EACH_FLOWER,
    sitting: bool = True,
) -> Mixed:
    """Return what is mixed for a palette.

    Parameters
    ----------
    question, chosen
        The palette; where puddles are not shared its recipes stay.
    seconds
        Time for the proofs [s].
    puddling
        For what puddles are shared.
    sitting
        Whether it is asked how few puddles would do for all in one sitting; else nothing is said of
        it, 0 at least, unless they are so shared.
    """
    table = MixTable.of(question, chosen)
    subjects = subjects_of(question, chosen.palette.covered)
    everything = Subject("", False, tuple(t for subject in subjects for t in subject.samples))
    deadline = perf_counter() + seconds
    shared = puddling is Puddling.EACH_FLOWER
    covers = [table.cover(one, deadline, cheapest=shared) for one in subjects]
    together = covers[0] if len(covers) == 1 else None
    one_sitting = puddling is Puddling.ONE_SITTING
    if together is None and not sitting and not one_sitting:
        together = Cover((), 0, cheapest=False, equals=())
    elif together is None or one_sitting:
        together = table.cover(everything, deadline, cheapest=one_sitting)
    matches = chosen.matches
    if one_sitting:
        subjects_mixed = [everything]
        matches = table.taken(matches, [everything], [together])
    else:
        subjects_mixed = subjects
        if shared:
            matches = table.taken(matches, subjects, covers)
    mixed = [puddle for one in subjects_mixed for puddle in _puddles(question, one, matches)]
    fewest = tuple(table.counted(one, cover) for one, cover in zip(subjects, covers, strict=True))
    return Mixed(
        matches, Puddles(puddling, tuple(mixed), fewest, table.counted(everything, together))
    )


def _puddles(question: Question, subject: Subject, matches: Sequence[Match | None]) -> list[Puddle]:
    """Return the puddles that the recipes of a subject make, in the order of mixing."""
    colours: dict[Mix, list[int]] = {}
    for t in subject.samples:
        match = matches[t]
        if match is not None and not match.recipe.is_bare_paper:
            colours.setdefault((match.recipe.tubes, match.recipe.parts), []).append(t)
    tubes = question.catalogue.tubes
    lightness = {
        mix: float(recipe_lab(Recipe(*mix, 1.0), tubes, question.optics)[0]) for mix in colours
    }
    painted = {t: match for t in subject.samples if (match := matches[t])}
    palest = {mix: max(painted[t].lab[0] for t in places) for mix, places in colours.items()}
    return [
        Puddle(
            subject=subject.name,
            own=subject.own,
            number=number,
            tubes=placed.mix[0],
            parts=placed.mix[1],
            lightness=lightness[placed.mix],
            colours=tuple(sorted(colours[placed.mix], key=lambda t: -painted[t].recipe.strength)),
            addition=placed.addition,
        )
        for number, placed in enumerate(in_order(palest), 1)
    ]
