"""What is said of tubes about to be bought: what each adds to the box, and all of them together."""

from fewtubes.comparison.box_findings import Intended
from fewtubes.comparison.box_gains import FlowerReached, Gain
from fewtubes.mixing.likeness import TWINS
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable
from fewtubes.words.shares import percents_apart

__all__ = ["gain_words", "together_words"]

MOST_FLOWERS = 4
"""Flowers named, those with most new colours first; beyond, their number tells more."""


def gain_words(intended: Intended) -> str:
    """Return what a tube adds to the flowers, in a sentence; "" if it is in the box already."""
    if intended.kept_out:
        return f"It would stay out of use: {intended.kept_out}."
    if intended.gain is None:
        return ""
    other = "" if intended.nearest is None else printable(intended.nearest.name)
    if intended.thinned and not intended.gain.is_nothing:
        before, after = percents_apart(intended.gain.before, intended.gain.after)
        return (
            f"It is the same colour as {other}, only weaker: that the box would cover {after}"
            f" instead of {before} comes of the whole numbers of parts that are tried."
        )
    if not intended.gain.is_nothing:
        return _covers("With it", intended.gain)
    if _is_same_colour(intended):
        return f"It adds nothing: it is the same colour as {other}."
    return "It adds nothing to these flowers: with the box alone it reaches no further colour."


def together_words(gain: Gain | None) -> str:
    """Return what several tubes add together, in a sentence; "" if that is not to be told."""
    if gain is None:
        return ""
    if gain.is_nothing:
        return "All of them together add nothing to these flowers."
    return _covers("With all of them", gain)


def _is_same_colour(intended: Intended) -> bool:
    """Whether the eye does not tell it from one in the box."""
    return intended.likeness is not None and intended.likeness.difference <= TWINS


def _covers(head: str, gain: Gain) -> str:
    before, after = percents_apart(gain.before, gain.after)
    listed = [_flower(flower) for flower in gain.flowers[:MOST_FLOWERS]]
    rest = gain.flowers[MOST_FLOWERS:]
    if rest:
        more = sum(flower.after - flower.before for flower in rest)
        listed.append(f"{counted(more, 'colour')} of {counted(len(rest), 'other flower')}")
    return f"{head} the box covers {after} instead of {before}; newly reached: {joined(listed)}."


def _flower(flower: FlowerReached) -> str:
    """Return how many further colours of a flower are reached, and whether these are its last."""
    name = printable(flower.name)
    if flower.total == 1:
        return name
    wholly = " (now all of it)" if flower.after == flower.total else ""
    return f"{counted(flower.after - flower.before, 'colour')} of {name}{wholly}"
