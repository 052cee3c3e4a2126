"""The puddles of a plan in the terminal, a line each where the terminal is wide enough."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from fewtubes.report.sentences.puddles import (
    Subject,
    colour_name,
    puddles_of,
    short_puddling_words,
    subject_label,
    subjects_of,
)
from fewtubes.report.terminal.chips import chips, shows_chips
from fewtubes.report.terminal.layout import INDENT, heading, paragraph, plain, put
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.puddles import Puddle
from fewtubes.words.counting import counted
from fewtubes.words.matches import bare_figure
from fewtubes.words.printable import printable
from fewtubes.words.recipes import short_mix_words
from fewtubes.words.shares import percent
from fewtubes.words.short_names import short_names
from fewtubes.words.washes import strength_percent

__all__ = ["print_puddles"]

LONGEST_LABEL = 60
"""Characters of a colour's name."""


def print_puddles(plan: Plan, console: Console) -> None:
    """Print what is mixed and how far it is thinned for each colour; nothing if nothing is."""
    if not any(planned.covered for planned in plan.samples):
        return
    heading(console, "Puddles")
    paragraph(console, short_puddling_words(plan))
    if shows_chips(console):
        paragraph(console, "First block: the colour wanted. Second block: the mix.")
    pages = _Lines(plan, console, short_names(planned.tube for planned in plan.tubes))
    for puddle in plan.mixed.mixed:
        if not puddle.subject:
            pages.print_puddle(puddle)
    for subject, places in subjects_of(plan):
        pages.print_subject(subject, places)


@dataclass(frozen=True)
class _Lines:
    """The puddles of a plan, printed line by line."""

    plan: Plan
    console: Console
    names: Mapping[str, str]
    """Of the palette's tubes by id."""

    def print_subject(self, subject: Subject, places: Sequence[int]) -> None:
        """Print the puddles of a flower, and what of it is left as bare paper."""
        puddles = puddles_of(self.plan, subject)
        bare = [place for place in places if self._is_bare(place)]
        if not puddles and not bare:
            return
        name = printable(subject.name)
        label = subject_label(self.plan, subject)
        title = plain(name[:1].upper() + name[1:] if subject.own else name, "bold")
        put(self.console, title.append_text(plain(f": {label}" if label else "")))
        for puddle in puddles:
            self.print_puddle(puddle)
        if bare:
            self._print_line("bare paper, unpainted", bare, own=subject.own)

    def print_puddle(self, puddle: Puddle) -> None:
        """Print one puddle: its mix, and the wash and match of each colour."""
        mix = short_mix_words(puddle.tubes, puddle.parts, self.names)
        self._print_line(mix, puddle.colours, puddle=puddle)

    def _print_line(
        self,
        mix: str,
        places: Sequence[int],
        *,
        puddle: Puddle | None = None,
        own: bool = False,
    ) -> None:
        shown = [place for place in places if not self.plan.samples[place].sample.is_step]
        bold = "bold" if shows_chips(self.console) else ""
        units = [plain(mix, bold).append_text(plain(" —"))]
        for place in shown:
            sample = self.plan.samples[place].sample
            name = sample.flower if own else sample.name
            if puddle is not None:
                name = colour_name(self.plan, place, puddle)
            end = "" if place == shown[-1] else ","
            units.append(self._colour(place, name).append_text(plain(end)))
        if not shown:
            units.append(plain(f"{counted(len(places), 'step')} between swatches"))
        _put_unbroken(units, self.console)

    def _colour(self, place: int, name: str) -> Text:
        """Return a colour with its wash and, in brackets, how far off the mix is."""
        planned = self.plan.samples[place]
        told = [bare_figure(planned.match, self.plan.scenario.tolerance)]
        if self.plan.steadiness is not None and not planned.is_bare_paper:
            told.append(f"stays {percent(self.plan.steadiness.stays[place])}")
        recipe = None if planned.is_bare_paper else planned.recipe
        wash = f" {strength_percent(recipe.strength)}" if recipe else ""
        said = plain(f"{printable(name, LONGEST_LABEL)}{wash} ({'; '.join(told)})")
        blocks = chips(self.console, [planned.sample.lab, planned.mix_lab])
        return blocks.append(" ").append_text(said) if shows_chips(self.console) else said

    def _is_bare(self, place: int) -> bool:
        planned = self.plan.samples[place]
        return planned.covered and planned.is_bare_paper and not planned.sample.is_step


def _put_unbroken(units: Sequence[Text], console: Console) -> None:
    """Print pieces in a row, unbroken where they fit on a line; further lines stand in."""
    lines: list[Text] = []
    for unit in units:
        last = lines[-1] if lines else None
        indent = 2 * INDENT if len(lines) > 1 else INDENT
        if last is not None and indent + last.cell_len + 1 + unit.cell_len <= console.width:
            last.append(" ").append_text(unit)
        else:
            lines.append(unit.copy())
    for turn, line in enumerate(lines):
        put(console, Padding(line, (0, 0, 0, 2 * INDENT if turn else INDENT)))
