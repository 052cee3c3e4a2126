"""One tube, or a pack of one that is there, added to a catalogue by hand."""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import MILLILITRES, PRICE, STRENGTH, listed, shown, text_fault
from fewtubes.catalogue.money import amount_fault, code_fault
from fewtubes.catalogue.rows import is_identifier
from fewtubes.catalogue.sizes import LONGEST_NOTE
from fewtubes.errors import Fault, InputError
from fewtubes.fitting.sheet import LabelSays
from fewtubes.keeping.beginning import opened
from fewtubes.keeping.borrowed import borrowed_told
from fewtubes.keeping.by_code import ORIENTATION
from fewtubes.keeping.kept_catalogue import KeptCatalogue, catalogue_of_rows
from fewtubes.keeping.merging import Winner, merged, merged_prices
from fewtubes.keeping.outcome import Outcome, outcome
from fewtubes.keeping.own_tubes import (
    NOTHING_SAID,
    OwnTube,
    Pack,
    TubeFinder,
    plain_figure,
    tubes_of_profiles,
)
from fewtubes.keeping.pack_sellers import PackSellers
from fewtubes.keeping.profiles import Profiles
from fewtubes.keeping.things import Kind, differences, tubes_with
from fewtubes.quoting import quoted
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["WantedPack", "WantedTube", "packs_added", "tube_added"]

ADDED = "what is added"
"""What a message calls the tables of one tube."""


@dataclass(frozen=True)
class WantedPack:
    """A pack as it was typed."""

    ml: Decimal
    price: Decimal
    """In the currency."""


@dataclass(frozen=True)
class WantedTube:
    """A tube as a painter tells of it."""

    name: str
    pigments: tuple[tuple[str, Fraction], ...]
    """Colour Index name or id of a profile, and its parts."""
    packs: tuple[WantedPack, ...] = ()
    currency: str | None = None
    """None for the one of the catalogue's packs."""
    seller: str | None = None
    """Id or name of who sells the packs; None where nobody is named."""
    id: str | None = None
    """None for one made from the name."""
    strength: float = 1.0
    note: str = ""
    label: LabelSays = NOTHING_SAID


def tube_added(
    folder: Path,
    wanted: WantedTube,
    *,
    profiles_of: KeptCatalogue | None = None,
    replace: bool = False,
) -> Outcome:
    """Return what a catalogue becomes with one more tube.

    Parameters
    ----------
    folder, wanted
        Of the catalogue, and the tube.
    profiles_of
        Where pigment profiles are taken from that the catalogue lacks.
    replace
        Whether a tube of that id or name gives way; of its packs those of the same content do.

    Raises
    ------
    InputError
        With every fault of the tube, under the names of its fields; if a tube of that name is
        there; with every fault of the catalogue as it is or would be.
    """
    ours = opened(folder)
    collector = FaultCollector()
    finder = TubeFinder(ours)
    known = finder.known(wanted.id or wanted.name)
    if known is not None and not replace:
        collector.note(
            "name",
            f"{shown(wanted.id or wanted.name)} is in {quoted(ours.label)} already, as"
            f" {shown(known)}; give the new one another name, or say that it replaces that one.",
        )
    _note_faults(wanted, collector)
    packs = _packs(ours, wanted.packs, wanted.currency, wanted.seller, collector)
    collector.raise_if_any()
    tube = OwnTube(
        where="pigments",
        id=wanted.id or known or finder.id_for(wanted.name),
        name=wanted.name,
        pigments=wanted.pigments,
        packs=packs,
        strength=plain_figure(wanted.strength),
        note=wanted.note,
        label=wanted.label,
    )
    sources = [ours] if profiles_of is None else [ours, profiles_of]
    theirs, borrowed = tubes_of_profiles(ADDED, [tube], Profiles(sources), collector)
    _note_shared(ours, theirs, tube.id, collector)
    collector.raise_if_any()
    done = merged(ours, theirs, Winner.THEIRS if replace else None)
    told = (_told(wanted), ORIENTATION, *borrowed_told(profiles_of, borrowed))
    return outcome(folder, ours, done, told=told)


def packs_added(
    folder: Path,
    tube: str,
    packs: Sequence[WantedPack],
    *,
    currency: str | None = None,
    seller: str | None = None,
    replace: bool = False,
) -> Outcome:
    """Return what a catalogue becomes with further packs of a tube; no paint is touched.

    Parameters
    ----------
    folder, tube
        Of the catalogue, and the tube's id or name.
    packs, currency
        The packs; the currency of the catalogue's packs if none is named.
    seller
        Id or name of who sells them; None where nobody is named.
    replace
        Whether a pack that is there gets the new price.

    Raises
    ------
    InputError
        If there is no such tube; with every fault of the packs, under the names of the parameters;
        with every fault of the catalogue as it is or would be.
    """
    ours = opened(folder)
    collector = FaultCollector()
    finder = TubeFinder(ours)
    known = finder.known(tube)
    if known is None:
        near = collector.suggestion(tube, [*finder.names, *finder.names.values()])
        collector.note(
            "name",
            f"{shown(tube)} is no tube of {quoted(ours.label)}; correct it, or name its pigments,"
            f" so that it is added.{near}",
        )
    wanted = _packs(ours, packs, currency, seller, collector)
    rows = [pack.cells(known or "") for pack in wanted]
    collector.raise_if_any()
    theirs = catalogue_of_rows(ADDED, {"offers.csv": rows})
    done = merged_prices(ours, theirs, Winner.THEIRS if replace else Winner.OURS)
    if done.left:
        faults = [Fault("packs", f"{told}; say that the price is a new one.") for told in done.left]
        raise InputError(faults)
    return outcome(folder, ours, done)


def _note_faults(wanted: WantedTube, collector: FaultCollector) -> None:
    collector.note_fault("name", text_fault(wanted.name))
    if wanted.id is not None and not is_identifier(wanted.id):
        what = "an id is made of lower-case letters and digits, with words joined by hyphens"
        collector.note("id", f"is {shown(wanted.id)}; {what}.")
    if not wanted.pigments:
        collector.note("pigments", "names none; give the Colour Index names on the label.")
    if not all(parts > 0 for _, parts in wanted.pigments):
        collector.note("pigments", "has parts of nothing or less; every part must be more.")
    collector.note_fault("strength", STRENGTH.fault(wanted.strength))
    if wanted.note:
        collector.note_fault("note", text_fault(wanted.note, LONGEST_NOTE))


def _note_shared(
    ours: KeptCatalogue, theirs: KeptCatalogue, tube: str, collector: FaultCollector
) -> None:
    """Note a pigment that would become another and is in other tubes as well."""
    for one in differences(ours, theirs):
        others = [other for other in tubes_with(ours, one.id) if other != tube]
        if one.kind is Kind.PIGMENT and others:
            collector.note(
                "id",
                f"the tube would have a pigment {shown(one.id)} of its own, and {shown(others[0])}"
                " holds another of that id; give the tube another id.",
            )


def _packs(
    ours: KeptCatalogue,
    packs: Sequence[WantedPack],
    currency: str | None,
    seller: str | None,
    collector: FaultCollector,
) -> tuple[Pack, ...]:
    """Return packs as they are written into the table."""
    used = list(ours.table("offers.csv").things("currency"))
    if currency is None and len(used) == 1:
        currency = used[0]
    if packs and currency is None:
        which = f"is not clear: the catalogue has {listed(used)}" if used else "is not known"
        collector.note("currency", f"{which}; say it, EUR for example.")
    elif currency is not None:
        collector.note_fault("currency", code_fault(currency))
    contents = [pack.ml for pack in packs]
    for ml in dict.fromkeys(ml for ml in contents if contents.count(ml) > 1):
        what = f"has two packs of {plain_figure(ml)} ml; keep one of them."
        collector.note("packs", what)
    for pack in packs:
        for what, fault in (
            ("content [ml]", MILLILITRES.fault(pack.ml)),
            ("price", amount_fault(pack.price, PRICE)),
        ):
            collector.note_fault("packs", fault and f"the {what} {fault}")
    sold_by = _seller(ours, seller, collector)
    return tuple(
        Pack(plain_figure(pack.ml), f"{pack.price:.2f}", currency or "", sold_by) for pack in packs
    )


def _seller(ours: KeptCatalogue, word: str | None, collector: FaultCollector) -> str:
    """Return the id of who sells a pack; "" where nobody is named."""
    if word is None:
        return ""
    sellers = PackSellers(ours)
    known = sellers.known(word)
    if known is None:
        collector.note("seller", sellers.unknown_words(word, collector))
    return known or ""


def _told(wanted: WantedTube) -> str:
    """Return where lightfastness and hazards of the tube come from."""
    label = wanted.label
    said = [
        what
        for what, told in (("lightfastness", label.lightfastness), ("hazards", label.hazards))
        if told is not None
    ]
    rest = "" if len(said) > 1 else "; all else is" if said else " is"
    own = f"{joined(said)} as its label says" if said else "all that is told of it"
    return f"{printable(wanted.name)}: {own}{rest}" + (
        " taken from the profiles of its pigments." if rest else "."
    )
