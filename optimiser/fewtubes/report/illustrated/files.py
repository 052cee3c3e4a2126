"""The pictures of a plan as files, each as SVG and as PNG."""

import re
import unicodedata
from collections.abc import Iterator, Mapping

from fewtubes.comparison.comparison import Comparison
from fewtubes.picture.png import png_bytes
from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import BEYOND, MISSED
from fewtubes.picture.sheets import framed, stacked
from fewtubes.picture.svg import svg_file
from fewtubes.picture.wash_strip import strip_picture
from fewtubes.report.illustrated.basis import LONGEST_IN_PICTURE, Basis, FlowerPart
from fewtubes.report.illustrated.front import front_note, front_picture
from fewtubes.words.counting import counted
from fewtubes.words.matches import limit_words
from fewtubes.words.printable import printable

__all__ = ["picture_files", "plan_pictures"]

LONGEST_STEM = 40
"""Letters of a flower's name in a file name."""

SCREEN_NOTE = f"{BEYOND} more vivid on paper than a screen can show. A screen is not paint."


def picture_files(
    basis: Basis, *, comparison: Comparison | None = None
) -> Mapping[str, str | bytes]:
    """Return the content of each file by its name, for `fewtubes.files.writing`."""
    files: dict[str, str | bytes] = {}
    for stem, picture in plan_pictures(basis, comparison=comparison).items():
        files[f"{stem}.svg"] = svg_file(picture)
        files[f"{stem}.png"] = png_bytes(picture)
    return files


def plan_pictures(basis: Basis, *, comparison: Comparison | None = None) -> dict[str, Picture]:
    """Return the pictures by file name without ending.

    Parameters
    ----------
    basis
        The plan with its paper and light.
    comparison
        Palettes of the same scenario side by side, for coverage against cost.
    """
    plan = basis.plan
    pictures = {"tubes": _tubes(basis)} if plan.tubes else {}
    pictures["hue-and-chroma"] = _plane(basis)
    front = None if comparison is None else front_picture(plan, comparison, basis.sheet)
    if comparison is not None and front is not None:
        notes = (front_note(comparison),)
        heading = f"{_title(basis)}: coverage against cost"
        pictures["coverage-and-cost"] = framed(front, basis.sheet, heading=heading, notes=notes)
    pictures |= dict(_flowers(basis))
    return pictures


def _tubes(basis: Basis) -> Picture:
    """Return all tubes painted out under each other."""
    tubes = basis.tubes.values()
    names = [printable(tube.name, LONGEST_IN_PICTURE) for tube in tubes]
    strips = [
        strip_picture(tube, basis.optics, basis.sheet, name=name)
        for tube, name in zip(tubes, names, strict=True)
    ]
    title = f"{_title(basis)}: the tubes"
    notes = ("From full strength to the thinnest wash, laid over a black line.", SCREEN_NOTE)
    picture = stacked(strips, names, basis.sheet, title=title)
    return framed(picture, basis.sheet, heading=_title(basis), notes=notes)


def _plane(basis: Basis) -> Picture:
    """Return the plane of hue and chroma with its key."""
    key = [
        f"{part.letter} – {printable(part.name, LONGEST_IN_PICTURE)}"
        for part in basis.flowers
        if part.letter
    ]
    notes = (
        "Soft dabs: the strongest colours the palette mixes. Ringed dots: the flowers.",
        f"{MISSED} out of reach. Distance from the middle: chroma, CIELAB C*.",
        *("; ".join(key[start : start + 2]) for start in range(0, len(key), 2)),
    )
    return framed(basis.hue_plane, basis.sheet, heading="Hue and chroma", notes=notes)


def _flowers(basis: Basis) -> Iterator[tuple[str, Picture]]:
    """Yield each flower taken apart, by file name."""
    for number, part in enumerate(basis.flowers, start=1):
        name = printable(part.name, LONGEST_IN_PICTURE)
        notes = (
            "From base to tip: left of the vein as wanted, right as mixed.",
            *_missed_note(basis, part),
            SCREEN_NOTE,
        )
        picture = framed(basis.split_flower(part), basis.sheet, heading=name, notes=notes)
        yield f"flower-{number:02d}{_stem(part.name)}", picture


def _missed_note(basis: Basis, part: FlowerPart) -> list[str]:
    """Return how many colours are out of reach, if any are."""
    missed = sum(not planned.covered for planned in part.samples)
    if not missed:
        return []
    tolerance = limit_words(basis.plan.scenario.tolerance)
    return [f"{MISSED} out of reach ({counted(missed, 'colour')}): more than {tolerance} off."]


def _title(basis: Basis) -> str:
    return printable(basis.plan.scenario.title, LONGEST_IN_PICTURE)


def _stem(name: str) -> str:
    """Return a name as the end of a file name: small plain letters, figures and hyphens."""
    plain = unicodedata.normalize("NFKD", name[:200]).encode("ascii", "ignore").decode("ascii")
    kept = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:LONGEST_STEM].strip("-")
    return f"-{kept}" if kept else ""
