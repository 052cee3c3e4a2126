"""Recipes in words."""

from collections.abc import Mapping, Sequence

from fewtubes.mixing.recipes import SIZE_WORDS, Recipe
from fewtubes.words.counting import counted
from fewtubes.words.washes import strength_words

__all__ = [
    "BARE_PAPER_WORDS",
    "PARTS_WORDS",
    "RESERVE_WORDS",
    "in_mix_words",
    "mix_words",
    "recipe_words",
    "short_mix_words",
]


PARTS_WORDS = (
    "Parts are brushfuls, each paint let down beforehand to the full strength that its painted-out"
    " stroke shows; a strong tinter takes far less from the tube for that than a weak one."
)
"""What a part is: as much as makes one full-strength stroke, not a volume from the tube."""

BARE_PAPER_WORDS = "bare paper"
"""The recipe without tubes."""

RESERVE_WORDS = (
    "Where it says bare paper, nothing is painted: paint around it (reserving the white)."
)
"""What watercolourists do and call it (common practice, no source)."""


def recipe_words(recipe: Recipe, names: Mapping[str, str]) -> str:
    """Return a recipe in words, e.g. ``2 parts magenta : 1 part gold; pale wash (4.4 %)``.

    The recipe without tubes is ``bare paper``.

    Parameters
    ----------
    recipe
        The recipe.
    names
        Name of each tube by id.
    """
    if recipe.is_bare_paper:
        return BARE_PAPER_WORDS
    return f"{mix_words(recipe.tubes, recipe.parts, names)}; {strength_words(recipe.strength)}"


def in_mix_words(most: int) -> str:
    """Return of how many tubes mixes may be, e.g. ``up to three tubes``; one, unmixed, is single.

    Parameters
    ----------
    most
        Most tubes in a mix, 1 to 3.
    """
    return "single tubes" if most == 1 else f"up to {SIZE_WORDS[most]} tubes"


def mix_words(tubes: Sequence[str], parts: Sequence[int], names: Mapping[str, str]) -> str:
    """Return tubes in parts, before any water, in words, e.g. ``2 parts magenta : 1 part gold``.

    Parameters
    ----------
    tubes, parts
        Ids, one or more, and the parts of each.
    names
        Name of each tube by id.
    """
    if len(tubes) == 1:
        return f"{names[tubes[0]]} alone"
    return " : ".join(
        f"{counted(count, 'part')} {names[tube]}" for tube, count in zip(tubes, parts, strict=True)
    )


def short_mix_words(tubes: Sequence[str], parts: Sequence[int], names: Mapping[str, str]) -> str:
    """Return the same without the word ``parts``, e.g. ``2 magenta : 1 gold``."""
    if len(tubes) == 1:
        return mix_words(tubes, parts, names)
    return " : ".join(f"{count} {names[tube]}" for tube, count in zip(tubes, parts, strict=True))
