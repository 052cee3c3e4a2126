"""``fewtubes fit``: from swatches painted at home to tubes of a catalogue."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from fewtubes.command_line.options.keeping import MaybeIntoOption, ReplaceOption
from fewtubes.command_line.options.output import SpreadsheetOption, folder_option
from fewtubes.command_line.options.question import LightOption, PaperOption
from fewtubes.command_line.options.swatches import NamesOption, SeedOption
from fewtubes.command_line.options.work import CatalogueOption, NoCacheOption
from fewtubes.command_line.typed import number_reader
from fewtubes.errors import Fault, InputError

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from fewtubes.fitting.sheet import SwatchSheet
from fewtubes.tables.spreadsheet import Spreadsheet

__all__ = ["fit"]

WORKBOOK_ENDINGS = (".xlsx", ".xls", ".ods", ".numbers")
"""What is neither a picture nor a table that can be read."""

TABLE_ENDINGS = (".csv", ".txt")
"""What a table of swatches is called; all else is a picture."""


def fit(
    *,
    swatches: Annotated[
        list[Path],
        typer.Argument(
            metavar="SWATCHES",
            help="A table of swatches (CSV), or photographs or scans of a painted card.",
        ),
    ],
    into: MaybeIntoOption = None,
    replace: ReplaceOption = False,
    layout: Annotated[
        Path | None,
        typer.Option(
            "--layout", metavar="FILE", help="Where the boxes are on a card; `card` writes one."
        ),
    ] = None,
    names: NamesOption = None,
    out: Annotated[
        Path | None,
        folder_option("Write fitted-tubes.csv and fitted-swatches.csv there, both or none."),
    ] = None,
    colour_noise: Annotated[
        float | None,
        typer.Option(
            "--colour-noise",
            parser=number_reader("--colour-noise"),
            metavar="SD",
            help="How far L*, a*, b* of a table may be off (standard deviation); 1.5 if not said.",
        ),
    ] = None,
    hand: Annotated[
        float | None,
        typer.Option(
            "--hand",
            parser=number_reader("--hand"),
            metavar="SHARE",
            help="How far a swatch strays from the strength meant; 0.12 if not said.",
        ),
    ] = None,
    catalogue: CatalogueOption = None,
    paper: PaperOption = None,
    light: LightOption = None,
    seed: SeedOption = None,
    spreadsheet: SpreadsheetOption = Spreadsheet.COMMA,
    no_cache: NoCacheOption = False,
) -> None:
    """Fit tubes of your own to swatches you painted.

    They are kept in a catalogue with --into. At least a full stroke and one wash a tube; a
    photograph stays on this machine.
    """
    from fewtubes.catalogue.reading import read_catalogue
    from fewtubes.command_line.asked import cache_asked, told_of_options
    from fewtubes.command_line.catalogue.finishing import settle_folder
    from fewtubes.command_line.output import progress
    from fewtubes.command_line.put_out import put_out
    from fewtubes.coverage.optics import usual_paper_lab
    from fewtubes.defaults import SEED, SWATCH_HAND
    from fewtubes.fitting.fit import fit as fitted_to
    from fewtubes.fitting.settings import FitSettings
    from fewtubes.keeping.at_hand import papers_and_lights
    from fewtubes.keeping.fitted_tubes import check_room, with_fitted
    from fewtubes.report.answer_files import fit_files
    from fewtubes.report.terminal.fit import print_fit

    if into is not None:
        settle_folder(into)
    with progress("reading the swatches") as tell_stage, told_of_options():
        tables = read_catalogue(catalogue) if catalogue else papers_and_lights(into)
        cache = cache_asked(no_cache=no_cache)
        sheet, notes = _sheet(
            swatches,
            layout=layout,
            names=names,
            colour_noise=colour_noise,
            light=light,
            paper_lab=lambda: usual_paper_lab(tables, cache, paper=paper),
        )
        if into is not None:
            check_room(into, [tube.name for tube in sheet.tubes], replace=replace)
        found = fitted_to(
            sheet,
            catalogue=tables,
            paper=paper,
            light=light,
            settings=FitSettings(
                hand=SWATCH_HAND if hand is None else hand, seed=SEED if seed is None else seed
            ),
            cache=cache,
            progress=tell_stage,
        )
        kept = (
            None if into is None else with_fitted(into, found.tubes, found.paper, replace=replace)
        )
    files = {} if out is None else {out: fit_files(found, spreadsheet)}
    if into is not None and kept is not None:
        files[into] = {**files.get(into, {}), **kept.files}
    put_out(
        lambda console: print_fit(found, console, notes=notes, kept=kept),
        files,
        earlier={} if into is None or kept is None else {into: kept.earlier},
    )


def _sheet(
    files: "Sequence[Path]",
    *,
    layout: Path | None,
    names: str | None,
    colour_noise: float | None,
    light: str | None,
    paper_lab: "Callable[[], tuple[float, float, float]]",
) -> "tuple[SwatchSheet, tuple[str, ...]]":
    """Return the swatches of a table or of pictures, and what is to be said of their reading."""
    from fewtubes.defaults import LIGHT

    pictures = [file for file in files if file.suffix.lower() not in TABLE_ENDINGS]
    faults = _unfit(files, pictures, layout=layout, names=names, colour_noise=colour_noise)
    if pictures and light not in (None, LIGHT):
        what = f"colours of a picture are those of daylight ({LIGHT}); leave the light out."
        faults.append(Fault("--light", what))
    if faults:
        raise InputError(faults)
    if not pictures:
        from fewtubes.defaults import COLOUR_NOISE
        from fewtubes.fitting.swatch_file import read_swatches

        noise = COLOUR_NOISE if colour_noise is None else colour_noise
        return read_swatches(files[0], colour_noise=noise), ()
    from fewtubes.card.asked import names_in
    from fewtubes.card.layout_file import read_layout
    from fewtubes.card.reading import read_cards

    assert layout is not None  # noqa: S101  # said by _unfit otherwise
    reading = read_cards(
        pictures,
        read_layout(layout),
        names=names_in(names) if names else (),
        paper_lab=paper_lab(),
    )
    return reading.sheet, reading.notes


def _unfit(
    files: "Sequence[Path]",
    pictures: "Sequence[Path]",
    *,
    layout: Path | None,
    names: str | None,
    colour_noise: float | None,
) -> list[Fault]:
    """Return what does not go together."""
    what = "is a workbook; save the sheet of swatches as CSV (UTF-8, with commas) and name that."
    books = [file for file in pictures if file.suffix.lower() in WORKBOOK_ENDINGS]
    if books:
        return [Fault(file.name, what) for file in books]
    faults = []
    if not pictures and len(files) > 1:
        faults.append(Fault("SWATCHES", "name one table; put the swatches of several into one."))
    if pictures and len(pictures) < len(files):
        faults.append(Fault("SWATCHES", "name either a table or pictures of a card, not both."))
    if pictures and layout is None:
        what = "is needed for a picture: it says where the boxes are; `fewtubes card` writes one."
        faults.append(Fault("--layout", what))
    given = {"--layout": layout, "--names": names}
    if not pictures:
        of_card = "is of a card; leave it out for a table."
        faults += [Fault(option, of_card) for option, value in given.items() if value is not None]
    elif colour_noise is not None:
        faults.append(Fault("--colour-noise", "is of a table; a picture shows its own noise."))
    return faults
