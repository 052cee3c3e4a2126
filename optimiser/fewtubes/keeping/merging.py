"""One catalogue taken into another: what is new is added, what is the same is left.

Where both hold a thing under one id with other content, somebody has to say whose stands; until
then nothing changes.
"""

from collections.abc import Iterable, Iterator, Sequence, Set
from dataclasses import dataclass
from enum import StrEnum

from fewtubes.catalogue.limits import shown
from fewtubes.errors import Fault, InputError
from fewtubes.keeping.kept_catalogue import KeptCatalogue
from fewtubes.keeping.packs import PackChange, with_packs
from fewtubes.keeping.things import (
    TABLES_OF,
    Difference,
    Kind,
    Namesake,
    differences,
    namesakes,
    rows_of,
    tubes_with,
)
from fewtubes.quoting import quoted
from fewtubes.words.lists import joined

__all__ = ["Change", "Merged", "Winner", "merged", "merged_prices"]


class Winner(StrEnum):
    """Whose content stands where two catalogues differ."""

    OURS = "ours"
    """What the catalogue holds that is added to."""
    THEIRS = "theirs"
    """What is brought in."""


@dataclass(frozen=True)
class Change:
    """One thing that came in or was replaced."""

    kind: Kind
    id: str
    replaced: bool
    """Whether something else stood there before."""


@dataclass(frozen=True)
class Merged:
    """The catalogue afterwards, and what became of what was brought in."""

    kept: KeptCatalogue
    changes: tuple[Change, ...] = ()
    packs: tuple[PackChange, ...] = ()
    left: tuple[str, ...] = ()
    """What ours has otherwise and keeps, in words."""
    told: tuple[str, ...] = ()
    """What else the painter should know, a sentence each."""


def merged(ours: KeptCatalogue, theirs: KeptCatalogue, keep: Winner | None = None) -> Merged:
    """Return a catalogue with all of another.

    Parameters
    ----------
    ours
        The one that is added to.
    theirs
        The one that is brought in; only what it holds is looked at.
    keep
        Whose stands where they differ; None makes every difference a fault.

    Raises
    ------
    InputError
        With every difference, if nobody has said whose stands, and with every name that is taken.
    """
    unlike = list(differences(ours, theirs))
    faults = [_name_taken(theirs, ours, one) for one in namesakes(ours, theirs)]
    packed = with_packs(ours, theirs, replacing=keep is Winner.THEIRS)
    if keep is None:
        faults += [_differs(theirs, one) for one in unlike]
        faults += [Fault(theirs.label, f"{told}; {WHICH}.") for told in packed.left]
    if faults:
        raise InputError(faults)
    contested = {(one.kind, one.id) for one in unlike}
    staying = contested if keep is Winner.OURS else set()
    kept, changes = _brought_in(packed.kept, theirs, staying, contested)
    left = [_words(one.kind, one.id) for one in unlike if keep is Winner.OURS] + list(packed.left)
    told = _on_pigments(ours, theirs, unlike, keep)
    return Merged(kept, tuple(changes), packed.changes, tuple(left), tuple(told))


def merged_prices(
    ours: KeptCatalogue, theirs: KeptCatalogue, keep: Winner = Winner.THEIRS
) -> Merged:
    """Return a catalogue with another's packs and prices for the tubes that both have.

    Sellers come along, and the sets of which ours has all tubes.

    Parameters
    ----------
    ours, theirs
        The one that is added to, and the one that is brought in.
    keep
        Whose price stands where a pack has two; packs that only one of them has are there in the
        end in any case.
    """
    known = ours.table("tubes.csv").things(Kind.TUBE)
    packed = with_packs(ours, theirs, replacing=keep is Winner.THEIRS, tubes=known)
    unlike = [one for one in differences(ours, theirs) if one.kind in SELLING]
    contested = {(one.kind, one.id) for one in unlike}
    strange = {
        (Kind.SET, id_)
        for id_, rows in theirs.table("set_packs.csv").things(Kind.SET).items()
        if any(cells["tube"] not in known for cells in rows)
    }
    staying = strange | (contested if keep is Winner.OURS else set())
    kept, changes = _brought_in(packed.kept, theirs, staying, contested, kinds=SELLING)
    left = [_words(one.kind, one.id) for one in unlike if keep is Winner.OURS]
    return Merged(kept, tuple(changes), packed.changes, (*left, *packed.left))


SELLING = (Kind.SELLER, Kind.SET)
"""Kinds that belong to prices and not to paints."""

WHICH = "say which to keep, ours or theirs"
"""Ours is what the catalogue has that is added to."""

WHOSE = f"{WHICH}, or rename one"


def _brought_in(
    ours: KeptCatalogue,
    theirs: KeptCatalogue,
    staying: Set[tuple[Kind, str]],
    contested: Set[tuple[Kind, str]],
    kinds: Iterable[Kind] = Kind,
) -> tuple[KeptCatalogue, list[Change]]:
    """Return the catalogue with all things of another but those that stay, and what changed."""
    changes: list[Change] = []
    kept = ours
    for kind in kinds:
        known = ours.table(TABLES_OF[kind][0]).things(kind)
        coming = {
            thing: rows
            for thing, rows in rows_of(theirs, kind).items()
            if (kind, thing) not in staying
        }
        for name in TABLES_OF[kind]:
            rows = {thing: tables[name] for thing, tables in coming.items()}
            kept = kept.with_table(name, kept.table(name).with_things(kind, rows))
        changes += [
            Change(kind, thing, replaced=thing in known)
            for thing in coming
            if thing not in known or (kind, thing) in contested
        ]
    return kept, changes


def _name_taken(theirs: KeptCatalogue, ours: KeptCatalogue, one: Namesake) -> Fault:
    return Fault(
        theirs.label,
        f"{_words(one.kind, one.id)} is named {shown(one.name)}, and in {quoted(ours.label)} that"
        f" is the name of {shown(one.taken_by)}; rename one, or give both one id.",
    )


def _differs(theirs: KeptCatalogue, one: Difference) -> Fault:
    return Fault(
        theirs.label,
        f"{_words(one.kind, one.id)} differs from ours: {one.what} (ours first); {WHOSE}.",
    )


def _words(kind: Kind, thing: str) -> str:
    return f"the {kind} {shown(thing)}"


def _on_pigments(
    ours: KeptCatalogue, theirs: KeptCatalogue, unlike: Sequence[Difference], keep: Winner | None
) -> Iterator[str]:
    """Yield which other tubes take a pigment's content from the one that stands."""
    contested = {one.id for one in unlike if one.kind is Kind.PIGMENT}
    for pigment in sorted(contested):
        here, there = tubes_with(ours, pigment), tubes_with(theirs, pigment)
        if keep is Winner.THEIRS:
            touched = [tube for tube in here if tube not in there]
            whose = "theirs now"
        else:
            touched = [tube for tube in there if tube not in here]
            whose = "ours"
        if touched:
            names = joined([shown(tube) for tube in touched])
            yield f"The pigment {shown(pigment)} of {names} is {whose}, and so is its colour."
