"""The integer program of a question as a file that other solvers read, and what is said in it."""

from collections.abc import Iterator

from fewtubes.selection.lp_file import lp_text
from fewtubes.selection.program_names import ProgramNames, labels
from fewtubes.shopping.question import Question
from fewtubes.words.printable import printable

__all__ = ["program_text"]

LONGEST_SHOWN = 60
"""Signs of a name that the head of the file repeats; readers of such files mind long lines."""


def program_text(question: Question) -> str:
    """Return the program in the LP format: which tubes to buy so that most is covered.

    Tubes are called by their ids, samples by flower and colour, as far as the format lets them.
    """
    names = ProgramNames(
        tubes=labels(question.catalogue.tubes),
        samples=labels(f"{sample.flower} {sample.name}" for sample in question.samples),
    )
    return lp_text(question.instance, names=names, said=_said(question, names))


def _said(question: Question, names: ProgramNames) -> Iterator[str]:
    """Yield what the numbers and names mean, a line each."""
    instance = question.instance
    free = sum(instance.weights[t] for t in instance.covered(()))
    total = sum(instance.weights)
    yield "Which tubes to buy so that most of what is to be painted is covered."
    yield f"Prices and budget: hundredths of {question.scenario.currency}."
    yield f"Weights of colours: whole numbers in a unit of their own, {total} in all."
    yield f"Coverage = (objective + {free}) / {total}; owned tubes and bare paper cover {free}."
    yield "buy: 1 if a tube is bought. covered: 1 if a colour is. held: 1 if every tube of a set is"
    yield "bought that covers the colour named first. Owned tubes are left out of the sets."
    yield "This is the first stage. Each later one holds fixed what was reached, and seeks the"
    fading = "the fewest tubes that fade (marked below), then " if instance.fading else ""
    yield f"least number of tubes (row most_tubes), then {fading}price (row budget), then"
    yield "worst_lightfastness (category, 1 best to 5), then the sum of all categories."
    yield "Tubes:"
    for number, (label, tube) in enumerate(zip(names.tubes, question.tubes, strict=True)):
        fades = " (fades)" if number in instance.fading else ""
        yield f"  {label}: {printable(tube.name, LONGEST_SHOWN)}{fades}"
    yield "Colours:"
    for label, sample in zip(names.samples, question.samples, strict=True):
        flower, name = (printable(text, LONGEST_SHOWN) for text in (sample.flower, sample.name))
        yield f"  {label}: {flower} / {name}"
