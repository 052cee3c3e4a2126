"""Recipes in words."""

from fewtubes.mixing.recipes import Recipe
from fewtubes.words.recipes import in_mix_words, recipe_words


def test_recipes_name_parts_tubes_and_wash() -> None:
    names = {"m": "magenta", "g": "gold"}
    mixed = recipe_words(Recipe(("m", "g"), (2, 1), 0.5), names)
    assert mixed == "2 parts magenta : 1 part gold; half-strength wash (50 %)"
    alone = recipe_words(Recipe(("m",), (1,), 1.0), names)
    assert alone == "magenta alone; full strength (100 %)"


def test_how_many_tubes_a_mix_holds() -> None:
    said = [in_mix_words(most) for most in (1, 2, 3)]
    assert said == ["single tubes", "up to two tubes", "up to three tubes"]
