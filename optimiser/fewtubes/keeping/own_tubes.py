"""Tubes put together by hand: of pigment profiles that are there, with packs and prices."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.names import alike_key, composed
from fewtubes.fitting.sheet import LabelSays
from fewtubes.keeping.by_code import ASK_THE_LABEL
from fewtubes.keeping.identifiers import identifier_for
from fewtubes.keeping.kept_catalogue import KEPT_COLUMNS, KeptCatalogue, catalogue_of_rows
from fewtubes.keeping.kept_table import Cells
from fewtubes.keeping.profiles import LABELLED, Profile, Profiles

__all__ = ["NOTHING_SAID", "OwnTube", "Pack", "TubeFinder", "plain_figure", "tubes_of_profiles"]

SHARE_DECIMALS = 6
"""Decimals of a share; the last one is made to fit, so that they sum to 1."""


NOTHING_SAID = LabelSays()


@dataclass(frozen=True)
class Pack:
    """One pack of a tube, figures as they are written into the table."""

    ml: str
    price: str
    currency: str
    seller: str = ""
    """Id of who sells it; blank where nobody is named."""

    def cells(self, tube: str) -> Cells:
        """Return its row for a tube; there is a seller in it where one is named."""
        cells = {"tube": tube, "ml": self.ml, "price": self.price, "currency": self.currency}
        return {**cells, "seller": self.seller} if self.seller else cells


@dataclass(frozen=True)
class OwnTube:
    """A tube as its label has it, and where a fault of it is told."""

    where: str
    id: str
    name: str
    pigments: tuple[tuple[str, Fraction], ...]
    """Colour Index name or id of a profile, and its parts, > 0; any sum."""
    packs: tuple[Pack, ...] = ()
    strength: str = "1"
    note: str = ""
    label: LabelSays = NOTHING_SAID


class TubeFinder:
    """The tubes of a catalogue by id and name, and ids for new ones."""

    def __init__(self, kept: KeptCatalogue) -> None:
        tubes = kept.table("tubes.csv").things("tube")
        self.names = {tube: rows[0]["name"] for tube, rows in tubes.items()}
        self._by_name = {alike_key(name): tube for tube, name in self.names.items()}
        self._taken = {*tubes, *kept.table("pigments.csv").things("pigment")}

    def known(self, word: str) -> str | None:
        """Return the id of the tube that bears an id or a name, None if there is none."""
        return word if word in self.names else self._by_name.get(alike_key(word))

    def id_for(self, name: str) -> str:
        """Return the id of the tube of that name; a new tube gets one that no other has."""
        key = alike_key(name)
        if key not in self._by_name:
            self._by_name[key] = identifier_for(name, self._taken)
            self._taken.add(self._by_name[key])
        return self._by_name[key]


def tubes_of_profiles(
    label: str, tubes: Sequence[OwnTube], profiles: Profiles, collector: FaultCollector
) -> tuple[KeptCatalogue, tuple[str, ...]]:
    """Return the tables of these tubes and all they are made of, and which profiles came along.

    Parameters
    ----------
    label
        What a message calls them.
    tubes
        Each with an id of its own.
    profiles
        What they can be made of.
    collector
        Takes the faults of pigments that are not there.
    """
    rows: dict[str, list[Cells]] = {name: [] for name in KEPT_COLUMNS}
    taken: set[str] = set()
    borrowed: dict[str, None] = {}
    for tube in tubes:
        shares = _shares([parts for _, parts in tube.pigments])
        for (word, _), share in zip(tube.pigments, shares, strict=True):
            profile = profiles.found(word, tube.where, collector)
            if profile is None:
                continue
            if profile.borrowed:
                borrowed[profile.id] = None
            profile = _as_labelled(profile, tube, len(tube.pigments))
            cells = {"tube": tube.id, "pigment": profile.id, "share": share}
            rows["tube_pigments.csv"].append(cells)
            if profile.id not in taken:
                taken.add(profile.id)
                for table, own in profile.rows.items():
                    rows[table] += own
        rows["tubes.csv"].append(_tube_row(tube))
        rows["offers.csv"] += [pack.cells(tube.id) for pack in tube.packs]
    return catalogue_of_rows(label, rows), tuple(borrowed)


def plain_figure(number: Fraction | Decimal | float) -> str:
    """Return a number as it stands in a table, without needless noughts."""
    text = f"{Decimal(str(float(number))):f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _tube_row(tube: OwnTube) -> Cells:
    return {
        "tube": tube.id,
        "name": composed(tube.name),
        "strength": tube.strength,
        "note": composed(tube.note),
    }


def _shares(parts: Sequence[Fraction]) -> list[str]:
    """Return the shares of the parts as texts that sum to 1 exactly."""
    whole = 10**SHARE_DECIMALS
    total = sum(parts)
    counts = [round(part / total * whole) for part in parts]
    if counts:
        counts[-1] += whole - sum(counts)
    return [plain_figure(Fraction(count, whole)) for count in counts]


def _as_labelled(profile: Profile, tube: OwnTube, parts: int) -> Profile:
    """Return a profile, a copy of it for this tube alone if the label says something else of it."""
    label = tube.label
    if label == NOTHING_SAID:
        return profile
    own = profile.rows["pigments.csv"][0]
    thing = tube.id if parts == 1 else f"{tube.id}-{profile.id}"
    changed: dict[str, str] = {
        "pigment": thing,
        "name": f"{own['name']}, as in {tube.name}",
        "class": f"{own['class']}{LABELLED}",
    }
    if label.lightfastness is not None:
        changed |= {"lightfastness": label.lightfastness.name, "blue_wool": ""}
    if label.hazards is not None:
        note = label.hazard_note or own["hazard_note"] or ASK_THE_LABEL
        changed |= {
            "hazard": " ".join(label.hazards),
            "hazard_note": note if label.hazards else label.hazard_note,
        }
    elif label.hazard_note:
        changed["hazard_note"] = label.hazard_note
    rows: Mapping[str, Sequence[Cells]] = {
        table: [{**cells, "pigment": thing} for cells in cells_of]
        for table, cells_of in profile.rows.items()
    }
    return replace(profile, id=thing, rows={**rows, "pigments.csv": [{**own, **changed}]})
