"""Colours of the painter's own, a row each: a name, a screen colour, an importance."""

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from fewtubes.catalogue.limits import IMPORTANCE, shown, text_fault
from fewtubes.catalogue.names import alike_key, composed
from fewtubes.colour.display import hex_to_lab
from fewtubes.page.fields import Fields
from fewtubes.page.tabs import FormValues

__all__ = ["HEX", "MOST_COLOURS", "OwnRow", "own_colour_values", "own_rows"]

MOST_COLOURS = 60
"""Colours of one's own; more would be a catalogue."""

HEX = re.compile(r"#?([0-9a-fA-F]{6})", re.ASCII)


@dataclass(frozen=True)
class OwnRow:
    """A colour of the painter's own, as typed."""

    name: str
    hex: str
    importance: str

    @property
    def blank(self) -> bool:
        """Whether neither name nor colour is given, so that the row does not count."""
        return not self.name.strip() and not self.hex.strip()


def own_rows(values: FormValues) -> tuple[OwnRow, ...]:
    """Return the rows of own colours that are not blank."""
    names, hexes = values.get("colour-name", ()), values.get("colour-hex", ())
    weights = values.get("colour-importance", ())
    rows = (
        OwnRow(
            *(column[place] if place < len(column) else "" for column in (names, hexes, weights))
        )
        for place in range(max(len(names), len(hexes)))
    )
    return tuple(row for row in rows if not row.blank)


def own_colour_values(fields: Fields, flowers: set[str]) -> tuple[dict[str, Any], ...]:
    """Return what each colour of the rows is made of; `flowers` are the names of those ticked."""
    rows = own_rows(fields.values)
    if len(rows) > MOST_COLOURS:
        fields.note("colours", f"there are {len(rows)}; at most {MOST_COLOURS} are allowed.")
        return ()
    colours = tuple(_own_colour(fields, row) for row in rows)
    for what in _name_faults([colour["name"] for colour in colours if colour["name"]], flowers):
        fields.note("colours", what)
    return colours


def _own_colour(fields: Fields, row: OwnRow) -> dict[str, Any]:
    name = composed(" ".join(row.name.split())) or row.hex.strip()
    fault = text_fault(name)
    if fault:
        fields.note("colours", f"the name {shown(name)} {fault}.")
    lab = (0.0, 0.0, 0.0)
    written = HEX.fullmatch(row.hex.strip())
    if written:
        L, a, b = hex_to_lab(f"#{written[1]}").tolist()
        lab = (L, a, b)
    else:
        fields.note(
            "colours",
            f"{shown(name)} is {shown(row.hex)}; a colour is written as #rrggbb, such as #c21e56.",
        )
    importance = fields.fraction("colours", IMPORTANCE, row.importance or "1")
    return {"name": name, "importance": importance, "lab": lab}


def _name_faults(names: list[str], flowers: set[str]) -> Iterator[str]:
    """Yield a sentence for every name that does not tell its colour from another."""
    keys = Counter(alike_key(name) for name in names)
    taken = {alike_key(flower) for flower in flowers}
    for name in {alike_key(name): name for name in names}.values():
        if keys[alike_key(name)] > 1:
            yield f"{shown(name)} stands there twice; give each colour a name of its own."
        if alike_key(name) in taken:
            yield f"{shown(name)} is the name of a flower that is ticked too; choose another."
