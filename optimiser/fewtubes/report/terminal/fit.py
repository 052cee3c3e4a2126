"""Fitted tubes in the terminal: how well their swatches are met, how sure they are, what helps."""

from collections.abc import Sequence

from rich.console import Console

from fewtubes.defaults import PAPER
from fewtubes.fitting.fit import Fit
from fewtubes.fitting.fitted import FittedTube
from fewtubes.keeping.fitted_tubes import WithFitted
from fewtubes.report.sentences.fitting import (
    ESTIMATE,
    UNSEEN,
    advice_words,
    figure_or_dash,
    named_tube,
)
from fewtubes.report.terminal.layout import heading, paragraph, plain, put, table
from fewtubes.words.counting import counted
from fewtubes.words.printable import printable

__all__ = ["print_fit"]


def print_fit(
    fit: Fit,
    console: Console,
    *,
    notes: Sequence[str] = (),
    kept: WithFitted | None = None,
) -> None:
    """Print each tube: figures in a table, then what to know of it and what would help most.

    Parameters
    ----------
    fit
        The fitted tubes.
    console
        Where to.
    notes
        What is to be said of how the swatches were read.
    kept
        The catalogue they are added to, if any.
    """
    put(
        console,
        plain(f"{counted(len(fit.tubes), 'tube')} fitted to {printable(fit.label)}", "bold"),
    )
    put(console, plain(f"Paper: {printable(fit.paper.name)}."))
    for note in (*fit.notes, *notes):
        paragraph(console, note)
    _print_figures(fit, console)
    heading(console, "What to know, and what would help")
    for tube in fit.tubes:
        _print_notes(tube, console)
    if kept is not None:
        _print_kept(kept, fit.paper.id, console)
    heading(console, "Take care")
    paragraph(console, ESTIMATE)
    paragraph(console, UNSEEN)


def _print_figures(fit: Fit, console: Console) -> None:
    heading(console, "How near (ΔE00)")
    titles = ("tube", "own swatches", "each from the rest", "half of mixes", "nine in ten mixes")
    made = table(*titles, right=titles[1:])
    for tube in fit.tubes:
        made.add_row(
            plain(named_tube(tube.painted)),
            figure_or_dash(tube.mean_off),
            figure_or_dash(tube.mean_left_out),
            f"{tube.spread.middle:.1f}",
            f"{tube.spread.most:.1f}",
        )
    put(console, made)
    paragraph(
        console,
        "Own swatches: how far the tube's swatches are from the fitted paint, on average. Each from"
        " the rest: the same if each is foretold from the tube's other swatches alone, slips of the"
        " hand included. Half of mixes, nine in ten mixes: so near the colours computed for its"
        " mixes are to true ones, as far as the swatches tell. Up to ΔE00 4 is still near.",
    )


def _print_notes(tube: FittedTube, console: Console) -> None:
    paragraph(console, named_tube(tube.painted), style="bold")
    for note in tube.notes:
        paragraph(console, note, indent=4)
    paragraph(console, advice_words(tube.advice, tube.spread), indent=4)


def _print_kept(kept: WithFitted, paper: str, console: Console) -> None:
    heading(console, "In the catalogue")
    for name, id_ in kept.ids.items():
        how = "replaced" if id_ in kept.replaced else "added"
        paragraph(console, f"{printable(name)} is {how} as {id_}.")
    if paper != PAPER:
        paragraph(
            console,
            f'The paper is in it as {paper}. For recipes on it write paper = "{paper}" in the'
            f" scenario; else they are for {PAPER}.",
        )
    if kept.begun:
        paragraph(
            console,
            "The catalogue is new and has no flowers yet: `fewtubes catalogue import` brings in"
            " yours. One begun by `fewtubes catalogue new FOLDER --with-flowers`, before the fit,"
            " has those of the demo.",
        )
    for sentence in kept.told:
        paragraph(console, sentence)
