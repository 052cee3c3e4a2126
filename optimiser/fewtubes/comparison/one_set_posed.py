"""Several scenarios posed as one choice, and its palette told with what is bought for it."""

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property

from fewtubes.catalogue.exact import Number
from fewtubes.comparison.one_set_buying import buying_for_all
from fewtubes.comparison.one_set_findings import SetForAll
from fewtubes.coverage.weights import whole_weights
from fewtubes.selection.joint import JointChoice, JointInstance, joined_samples
from fewtubes.shopping.question import Question

__all__ = ["PosedTogether"]


@dataclass(frozen=True, eq=False)
class PosedTogether:
    """The scenarios, each with what all of them wish, and how much each counts."""

    questions: tuple[Question, ...]
    shares: tuple[Fraction, ...]
    least: tuple[Number, ...]
    """Coverage that each asks for at least [0–1]."""

    @cached_property
    def buying(self) -> Question:
        """What the one set is bought by."""
        return buying_for_all(self.questions)

    def joint(self) -> tuple[JointInstance, bool]:
        """Return the one choice for all, and whether its mean is counted exactly.

        What is refused for any scenario is refused, and two tubes are one paint if they are so on
        the paper and in the light of every scenario.
        """
        out = frozenset(
            question.numbers[id_]
            for question in (*self.questions, self.buying)
            for id_ in question.refused
        )
        alone = [question.instance_without(out) for question in self.questions]
        sets, weights = joined_samples(
            [tuple(zip(one.weights, one.minimal_sets, strict=True)) for one in alone]
        )
        parts = [Fraction(0)] * len(sets)
        for share, row in zip(self.shares, weights, strict=True):
            total = sum(row)
            parts = [part + share * w / total for part, w in zip(parts, row, strict=True)]
        counted = whole_weights(parts)
        base = replace(
            self.buying.instance_without(out),
            minimal_sets=sets,
            weights=counted.counts,
            least_value=0,
            alike=frozenset.intersection(*(one.alike for one in alone)),
            spare=frozenset.intersection(*(one.spare for one in alone)),
        )
        exact = counted.exact and all(question.counted_exactly for question in self.questions)
        floors = tuple(
            question.least_weight(least)
            for question, least in zip(self.questions, self.least, strict=True)
        )
        return JointInstance(base, weights, self.shares, floors), exact

    def told(self, joint: JointInstance, choice: JointChoice) -> SetForAll:
        """Return a choice with its tubes."""
        palette, first = choice.palette, self.buying
        if palette is None:
            raise ValueError("there is no palette to tell")
        # What any scenario refuses is not bought to reach a sum either.
        refused = {id_: why for one in self.questions for id_, why in one.refused.items()}
        first = replace(first, refused=dict(first.refused) | refused)
        return SetForAll(
            tubes=tuple(first.tubes[number] for number in palette.bought),
            purchase=first.purchase(palette.bought),
            cost=palette.cost,
            coverages=choice.coverages,
            mean=joint.mean(choice.coverages),
            bound=float(choice.bound),
            proven=choice.proven,
            settled=choice.proven or choice.bound <= choice.aim,
            seconds=choice.seconds,
        )
