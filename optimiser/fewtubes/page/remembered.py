"""Earlier questions as the form lists them, and the question of now remembered beside them."""

from dataclasses import dataclass

from fewtubes.defaults import RIVALS_WITHIN
from fewtubes.errors import InputError, OutputError
from fewtubes.page.at_home import known_values
from fewtubes.page.fields import first_of
from fewtubes.page.memory import Question, question_of
from fewtubes.page.own_flowers import typed_flowers
from fewtubes.page.run_state import RunState
from fewtubes.page.sums_form import sums_asked, sums_typed, whole_of_sums
from fewtubes.page.tabs import FormValues, Tab
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row
from fewtubes.words.printable import printable

__all__ = [
    "LONGEST_PATH",
    "LONGEST_TITLE",
    "Earlier",
    "EarlierQuestions",
    "asked_besides",
    "earlier",
    "remember",
]

LONGEST_TITLE = 80
"""Characters of a question's name in the list."""

OPTIONS = {
    "sitting": "--one-sitting",
    "colour": "--nearest-each",
    "tell": "--how-sure",
    "steadiest": "--steadiest",
    "steadiest-near": f"--steadiest --within {RIVALS_WITHIN:g}",
}
"""Options of the command line that ask what the form asks by these words."""

LONGEST_PATH = 300
"""Characters of the folder's name."""


@dataclass(frozen=True)
class Earlier:
    """An earlier question in the list."""

    key: str
    title: str
    asked: str
    """What it was about, in short."""


@dataclass(frozen=True)
class EarlierQuestions:
    """What the form says of earlier questions."""

    questions: tuple[Earlier, ...] = ()
    """Those asked of this catalogue, the latest first."""
    on: bool = False
    """Whether further ones are remembered."""
    fault: str = ""
    """Why nothing is, as a sentence; blank if all is well."""
    folder: str = ""
    """Where they are kept; blank if they are kept nowhere."""


def earlier(run: RunState) -> EarlierQuestions:
    """Return what the form says of earlier questions."""
    if run.memory is None:
        return EarlierQuestions()
    folder = printable(str(run.memory.folder), LONGEST_PATH)
    try:
        held = run.memory.read()
    except InputError as error:
        return EarlierQuestions(fault=str(error), folder=folder)
    asked = [one for one in held.questions if one.catalogue == run.catalogue_key]
    return EarlierQuestions(tuple(map(_listed, asked)), held.on, folder=folder)


def asked_besides(values: FormValues) -> str:
    """Return what no scenario holds as a remark with the options that ask for it; "" if nothing."""
    words = [first_of(values, "puddling"), first_of(values, "trials")]
    options = [OPTIONS[word] for word in words if word in OPTIONS]
    said = f"# asked with: fewtubes shop {' '.join(options)}\n" if options else ""
    sums = [typed for typed in sums_typed(values) if typed.strip()]
    if not sums:
        return said
    try:
        amounts = sums_asked(values, first_of(values, "currency"))
    except InputError:
        return said
    bit_by_bit = " ".join(f"--sum {amount:f}" for amount in amounts)
    return f"{said}# bit by bit: fewtubes instalments {bit_by_bit}\n"


def remember(run: RunState, tab: Tab, values: FormValues | None = None) -> None:
    """Remember the question of a tab, and its tubes at home; say so in the tab if it cannot be.

    Parameters
    ----------
    run, tab
        Where it was asked.
    values
        The question as it was typed, if that is not what stands in the form now.
    """
    if run.memory is None:
        return
    try:
        if not run.memory.read().on:
            return
        asked = tab.values if values is None else values
        run.memory.add(question_of(asked, run.settings.catalogue))
        if run.home is not None and run.home.remembered:
            box = run.home.save(tab.values)
            tab.values = {**tab.values, **known_values(box)}
    except (InputError, OutputError) as error:
        tab.notice = f"This question is not remembered: {error}"


def _listed(question: Question) -> Earlier:
    values = question.values
    whole = sum(1 for flower in typed_flowers(values) if flower.counted)
    flowers = len(values.get("flower", ())) + whole
    own = sum(1 for typed in values.get("colour-hex", ()) if typed.strip())
    sums = whole_of_sums(values)
    told = [
        f"{first_of(values, 'currency')} {first_of(values, 'budget')}",
        *([f"bit by bit with {sums}"] if sums else []),
        *([counted(flowers, "flower")] if flowers else []),
        *([counted(own, "colour of your own/colours of your own")] if own else []),
    ]
    title = printable(first_of(values, "title"), LONGEST_TITLE) or "without a name"
    return Earlier(question.key, title, printable(in_a_row(told), LONGEST_TITLE))
