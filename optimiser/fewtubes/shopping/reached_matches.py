"""Which mix reaches which sample, and the match, made only where it is asked for."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fewtubes.mixing.matching import Match
from fewtubes.mixing.reached import Reached
from fewtubes.mixing.recipes import RecipeSpace

__all__ = ["ReachedMatches"]


@dataclass(frozen=True, eq=False)
class ReachedMatches:
    """Matches of mixes and samples, made when they are asked for: most never are."""

    reached: Reached
    space: RecipeSpace
    places: dict[tuple[int, int], int]
    """Number of the pair of a mix and a sample."""
    added: dict[tuple[int, int], Match]
    """Matches besides."""

    @classmethod
    def of(cls, reached: Reached, samples: Sequence[int], space: RecipeSpace) -> "ReachedMatches":
        """Return what was reached; `samples` are the numbers of the colours that were sought."""
        colours = (samples[c] for c in reached.pairs.colour.tolist())
        pairs = zip(reached.pairs.mix.tolist(), colours, strict=True)
        return cls(reached, space, {pair: place for place, pair in enumerate(pairs)}, {})

    def __contains__(self, pair: tuple[int, int]) -> bool:
        """Return whether a mix, by number, reaches a sample."""
        return pair in self.places or pair in self.added

    def __getitem__(self, pair: tuple[int, int]) -> Match:
        """Return the match of a mix and a sample that it reaches."""
        if pair in self.added:
            return self.added[pair]
        return self.reached.match(self.places[pair], self.space)

    def differences(self) -> Iterator[tuple[tuple[int, int], float]]:
        """Yield each pair with how far the mix is from the sample [ΔE00]."""
        yield from zip(self.places, self.reached.pairs.difference.tolist(), strict=True)
        for pair, match in self.added.items():
            yield pair, match.difference
