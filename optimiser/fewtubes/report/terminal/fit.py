"""Fitted tubes in the terminal: how well their swatches are met, how sure they are, what helps."""

from collections.abc import Sequence

from rich.console import Console

from fewtubes.fitting.fit import Fit
from fewtubes.fitting.fitted import FittedTube
from fewtubes.keeping.fitted_tubes import WithFitted
from fewtubes.report.sentences.fitting import (
    ESTIMATE,
    UNSEEN,
    advice_words,
    figure_or_dash,
    named_tube,
    spread_words,
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
        _print_kept(kept, console)
    heading(console, "Take care")
    paragraph(console, ESTIMATE)
    paragraph(console, UNSEEN)


def _print_figures(fit: Fit, console: Console) -> None:
    heading(console, "How near (ΔE00)")
    titles = ("tube", "own swatches", "left out, predicted", "mixtures, half within", "90 % within")
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
        "Own swatches: mean difference between swatch and fitted paint. Left out, predicted: mean"
        " difference of each swatch from what the others alone say of it, the hand's slips"
        " included. Mixtures: how far colours mixed with spectra that fit as well are from those"
        " computed.",
    )


def _print_notes(tube: FittedTube, console: Console) -> None:
    paragraph(console, named_tube(tube.painted), style="bold")
    for note in tube.notes:
        paragraph(console, note, indent=4)
    paragraph(console, f"{spread_words(tube.spread)} {advice_words(tube.advice)}", indent=4)


def _print_kept(kept: WithFitted, console: Console) -> None:
    heading(console, "In the catalogue")
    for name, id_ in kept.ids.items():
        how = "replaced" if id_ in kept.replaced else "added"
        paragraph(console, f"{printable(name)} is {how} as {id_}.")
    for sentence in kept.told:
        paragraph(console, sentence)
