"""What is needed of each tube if one set serves several scenarios, classes and pictures included.

The scenarios of a term follow one another, so tubes and pans go from class to class: of each tube
there are as many as the largest class needs, holding as much as the most demanding asks for. Paint
does not come back: what all pictures planned take, of all scenarios, is added up::

    containers_i(P) = max_k containers_k,i
    amount_i(P)     = max(max_k amount_k,i, Σ_k n_k·V_k,i(P))

with what scenario k needs of tube i whatever else is bought (`fewtubes.shopping.needs`), the number
of its pictures n_k, 0 where none are planned, and the paint V_k,i(P) that one of them takes if P is
bought (`fewtubes.shopping.paint_use`). The amount is in whole thousandths of a millilitre, rounded
up once the pictures are added.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, fields, replace

from fewtubes.selection.terms import Need
from fewtubes.shopping.paint_needs import thousandths_taken
from fewtubes.shopping.question import Question
from fewtubes.shopping.refusals import Refusal, refusals
from fewtubes.shopping.terms import NeedsOf

__all__ = ["BuyingForAll", "buying_for_all"]


@dataclass(frozen=True, eq=False)
class BuyingForAll(Question):
    """The first of the questions, asked for the tubes and the paint that all of them need."""

    served: tuple[Question, ...] = ()
    """All of them, with the tubes refused that any refuses."""

    @property
    def needs_of(self) -> NeedsOf | None:
        """What is needed of each tube bought with others; None where no pictures are planned."""
        return self._needs if any(one.scenario.picture for one in self.served) else None

    def paint_planned(self, bought: tuple[int, ...]) -> Mapping[str, float]:
        """Return the paint that all pictures planned of all scenarios take [ml] by tube."""
        taken: dict[str, float] = {}
        for one in self.served:
            for tube, ml in one.paint_planned(bought).items():
                taken[tube] = taken.get(tube, 0.0) + ml
        return taken

    def _needs(self, bought: tuple[int, ...]) -> tuple[Need, ...]:
        """Return what is needed of each tube bought, in their order."""
        taken = self.paint_planned(bought)
        found = []
        for number in bought:
            least = self.needs[number]
            amount = thousandths_taken(taken.get(self.tubes[number].id, 0.0))
            found.append(Need(max(least.amount, amount), least.containers))
        return tuple(found)


def buying_for_all(questions: Sequence[Question]) -> Question:
    """Return the question that the one set is bought by.

    It is the first where each scenario needs the same of every tube; what is refused for any is
    refused then by whoever asks (`Question.instance_without`).
    """
    first = questions[0]
    planned = any(one.scenario.picture for one in questions)
    if not planned and all(one.needs == first.needs for one in questions):
        return first
    needs = tuple(
        Need(max(one.amount for one in row), max(one.containers for one in row))
        for row in zip(*(question.needs for question in questions), strict=True)
    )
    out: dict[str, Refusal] = {id_: why for one in questions for id_, why in one.refused.items()}
    out = refusals(first.catalogue, first.scenario, first.transparencies, needs) | out
    own = {field.name: getattr(first, field.name) for field in fields(first)}
    return BuyingForAll(
        **own | {"needs": needs, "refused": out},
        served=tuple(replace(one, refused=out) for one in questions),
    )
