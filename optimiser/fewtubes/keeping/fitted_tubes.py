"""Tubes that were fitted to swatches, as rows of a catalogue: one pigment profile a tube."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import shown, text_fault
from fewtubes.catalogue.names import alike_key, composed
from fewtubes.catalogue.reading import LIKELY_TABLE, read_catalogue
from fewtubes.catalogue.records import CODE_JOINT, Paper, Pigment
from fewtubes.catalogue.rows import BAND_COLUMNS
from fewtubes.catalogue.sizes import MOST_LIKELY_ROWS
from fewtubes.colour.bands import FloatArray
from fewtubes.errors import Fault, InputError
from fewtubes.fitting.fit import DRAWS
from fewtubes.fitting.fitted import FittedTube
from fewtubes.fitting.sheet import PaintedTube
from fewtubes.keeping.beginning import kept_or_begun
from fewtubes.keeping.by_code import ORIENTATION, expected_of
from fewtubes.keeping.identifiers import identifier_for
from fewtubes.keeping.kept_catalogue import (
    KEPT_COLUMNS,
    KeptCatalogue,
    catalogue_of_rows,
    changed_files,
    earlier_texts,
    looked_through,
)
from fewtubes.keeping.kept_table import Cells, content
from fewtubes.keeping.merging import Winner, merged
from fewtubes.keeping.things import tubes_with
from fewtubes.quoting import quoted

__all__ = ["FITTED_CLASS", "WithFitted", "check_room", "with_fitted"]

FITTED_CLASS = "fitted from swatches"
"""The class of a pigment profile that is no pigment's but one tube's."""

DIGITS = 6
"""Significant digits of a spectrum, far more than a fit can know."""


@dataclass(frozen=True)
class WithFitted:
    """A catalogue's folder with fitted tubes, still to be written."""

    files: Mapping[str, str]
    """Text of every table that is new or changes, by file name."""
    earlier: Mapping[str, str | None]
    """What those tables hold now; None for one that is new."""
    ids: Mapping[str, str]
    """The tube's id by the name it was painted under."""
    replaced: tuple[str, ...]
    """Ids of tubes that were there before."""
    begun: bool
    """Whether the catalogue is new."""
    told: tuple[str, ...]
    """Where lightfastness and hazards come from, a sentence a tube, and what that is worth."""


def check_room(folder: Path, names: Sequence[str], *, replace: bool = False) -> None:
    """Raise what would keep tubes out of a folder's catalogue before time is spent on fitting them.

    Parameters
    ----------
    folder
        Of a catalogue, or to become one.
    names
        Of the tubes that are to be fitted.
    replace
        Whether a tube of the same name gives way.

    Raises
    ------
    InputError
        With every tube whose name is taken, unless it may be replaced; if there is no room for so
        many; with every fault of the tables that are there.
    """
    ours = kept_or_begun(folder)[1]
    ids, _ = _ids(ours, names, replace=replace)
    there = ours.table(LIKELY_TABLE).things("pigment")
    rows = sum(len(cells) for thing, cells in there.items() if thing not in ids.values())
    room = max(0, (MOST_LIKELY_ROWS - rows) // (2 * DRAWS))  # K and S of each draw
    if len(names) > room:
        what = (
            f"has room for {room:,} fitted tubes more and not for {len(names):,}; name another"
            " folder, or fit fewer."
        )
        raise InputError([Fault(str(folder), what)])


def with_fitted(
    folder: Path, fitted: Sequence[FittedTube], paper: Paper, *, replace: bool = False
) -> WithFitted:
    """Return a catalogue's folder with fitted tubes added; nothing is written yet.

    Parameters
    ----------
    folder
        Of a catalogue, or to become one with the papers and lights of the demo.
    fitted
        The tubes, each with a name of its own.
    paper
        What they were painted on; added unless the folder has the same.
    replace
        Whether a tube of the same name gives way. Its packs and prices stay.

    Raises
    ------
    InputError
        With every tube whose name is taken, unless it may be replaced; if the folder has another
        paper of that id; with every fault of the tables that are there, or as they would be.
    """
    before, ours = kept_or_begun(folder)
    ids, replaced = _ids(ours, [tube.painted.name for tube in fitted], replace=replace)
    profiles = tuple(read_catalogue().pigments.values())
    _check_paper(ours, paper)
    theirs = _tables(ours, fitted, list(ids.values()), profiles, paper)
    after = merged(ours, theirs, Winner.THEIRS).kept
    looked_through(after)
    told = [_expected_told(tube.painted, profiles) for tube in fitted]
    files = changed_files(before, after)
    return WithFitted(
        files=files,
        earlier=earlier_texts(before, files),
        ids=ids,
        replaced=tuple(replaced),
        begun=before is None,
        told=(*told, ORIENTATION) if told else (),
    )


def _ids(
    ours: KeptCatalogue, names: Sequence[str], *, replace: bool
) -> tuple[dict[str, str], list[str]]:
    """Return an id a name, and those of tubes that are replaced; faults are raised together."""
    collector = FaultCollector()
    there = {
        alike_key(rows[0]["name"]): tube
        for tube, rows in ours.table("tubes.csv").things("tube").items()
    }
    pigments = ours.table("pigments.csv").things("pigment")
    taken = {*there.values(), *pigments}
    met: dict[str, str] = {}
    ids: dict[str, str] = {}
    replaced: list[str] = []
    for name in names:
        key = alike_key(name)
        collector.note_fault(f"tube {shown(name)}", text_fault(name))
        if key in met:
            what = f"cannot be told from {shown(met[key])}; give each tube a name of its own."
            collector.note(f"tube {shown(name)}", what)
        elif key not in there:
            ids[name] = identifier_for(name, taken)
            taken.add(ids[name])
        else:
            ids[name] = there[key]
            replaced.append(there[key])
            fault = _taken_fault(ours, there[key], replace=replace)
            collector.note_fault(f"tube {shown(name)}", fault)
        met.setdefault(key, name)
    collector.raise_if_any()
    return ids, replaced


def _taken_fault(ours: KeptCatalogue, tube: str, *, replace: bool) -> str | None:
    """Return why a tube cannot be replaced, as a sentence, or None."""
    if not replace:
        return (
            f"is in {quoted(ours.label)} already, as {shown(tube)}; give the new one another name,"
            " or say that it replaces that one."
        )
    others = [other for other in tubes_with(ours, tube) if other != tube]
    if others:
        return (
            f"would replace the pigment {shown(tube)} in {quoted(ours.label)}, which the tube"
            f" {shown(others[0])} holds too; give the new one another name."
        )
    return None


def _tables(
    ours: KeptCatalogue,
    fitted: Sequence[FittedTube],
    ids: Sequence[str],
    profiles: Sequence[Pigment],
    paper: Paper,
) -> KeptCatalogue:
    """Return the tables that hold the fitted tubes and their paper alone."""
    notes = {tube: rows[0]["note"] for tube, rows in ours.table("tubes.csv").things("tube").items()}
    rows: dict[str, list[Cells]] = {name: [] for name in KEPT_COLUMNS}
    for tube, one in zip(ids, fitted, strict=True):
        name = composed(one.painted.name)
        rows["pigments.csv"].append(_pigment(tube, one.painted, profiles))
        rows["spectra.csv"] += _spectra({"pigment": tube}, one.K, one.S)
        for draw, (K, S) in enumerate(zip(one.likely.K, one.likely.S, strict=True), start=1):
            rows[LIKELY_TABLE] += _spectra({"pigment": tube, "draw": str(draw)}, K, S)
        note = notes.get(tube, "")
        rows["tubes.csv"].append({"tube": tube, "name": name, "strength": "1", "note": note})
        rows["tube_pigments.csv"].append({"tube": tube, "pigment": tube, "share": "1"})
    rows["papers.csv"].append(_paper_row(paper))
    return catalogue_of_rows("the fitted tubes", rows)


def _pigment(tube: str, painted: PaintedTube, profiles: Sequence[Pigment]) -> Cells:
    """Return the profile's row in ``pigments.csv``."""
    expected = expected_of(painted.name, painted.codes, profiles, painted.label)
    return {
        "pigment": tube,
        "code": CODE_JOINT.join(painted.codes),
        "name": composed(painted.name),
        "class": FITTED_CLASS,
        "lightfastness": expected.lightfastness.name,
        "blue_wool": "",
        "staining": expected.staining or "",
        "granulating": expected.granulating or "",
        "hazard": " ".join(expected.hazards),
        "hazard_note": expected.hazard_note,
    }


def _expected_told(painted: PaintedTube, profiles: Sequence[Pigment]) -> str:
    return expected_of(painted.name, painted.codes, profiles, painted.label).told


def _spectra(of: Cells, K: FloatArray, S: FloatArray) -> Iterator[Cells]:
    """Yield the rows of absorption and scattering [1/load], shapes (bands,)."""
    for quantity, values in (("K", K), ("S", S)):
        yield {**of, "quantity": quantity, **_bands(values)}


def _bands(values: FloatArray) -> Cells:
    return {
        column: f"{value:.{DIGITS}g}" for column, value in zip(BAND_COLUMNS, values, strict=True)
    }


def _paper_row(paper: Paper) -> Cells:
    return {"paper": paper.id, "name": composed(paper.name), **_bands(paper.reflectance)}


def _check_paper(ours: KeptCatalogue, paper: Paper) -> None:
    """Raise if the folder has another paper of that id."""
    collector = FaultCollector()
    for rows in ours.table("papers.csv").things("paper").get(paper.id, []):
        if content([rows]) != content([_paper_row(paper)]):
            what = (
                f"is in {quoted(ours.label)} already with another name or reflectance; give the one"
                " painted on another id."
            )
            collector.note(f"paper {shown(paper.id)}", what)
    collector.raise_if_any()
