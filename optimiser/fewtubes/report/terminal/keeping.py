"""What a catalogue's folder has become, in words."""

from collections.abc import Sequence

from rich.console import Console

from fewtubes.keeping.merging import Merged
from fewtubes.keeping.outcome import Outcome
from fewtubes.keeping.packs import PackChange
from fewtubes.keeping.things import Kind
from fewtubes.report.terminal.layout import plain, put
from fewtubes.words.counting import counted
from fewtubes.words.lists import in_a_row, joined
from fewtubes.words.printable import printable

__all__ = ["print_outcome"]

MOST_NAMED = 12
"""Of what changed; the tables hold all of it."""


def print_outcome(outcome: Outcome, console: Console) -> None:
    """Print what was added, replaced and left, and what the painter should know."""
    merged = outcome.merged
    if not outcome.files:
        why = "nothing was changed" if merged.left else "all of it is there; nothing was changed"
        put(console, plain(f"'{outcome.folder}': {why}."))
    for line in (*_things(merged), *_packs(merged.packs), *_left(merged.left), *outcome.told):
        put(console, plain(line))
    if not merged.changes and not merged.packs and outcome.files:
        put(console, plain(_begun(outcome)))


def _begun(outcome: Outcome) -> str:
    """Return what a new catalogue holds, and what comes next."""
    tables = outcome.merged.kept
    held = [
        counted(len(tables.table(name).things(kind)), kind.value)
        for name, kind in (
            ("papers.csv", Kind.PAPER),
            ("lights.csv", Kind.LIGHT),
            ("flowers.csv", Kind.FLOWER),
        )
        if tables.table(name).rows
    ]
    begun = f"Begun with {joined(held)} of the demo" if held else "Begun with header rows alone"
    into = f"--into {printable(str(outcome.folder))}"
    how = f"`fewtubes catalogue add NAME {into} --pigments PB29 --pack 5=3.90 --currency EUR"
    return (
        f"{begun}. It holds no tube yet: fit yours from swatches with `fewtubes fit`, or put one in"
        f" with {how} --from demo`."
    )


def _things(merged: Merged) -> list[str]:
    """Return what came in and what was replaced, a line each."""
    lines = []
    for word, replaced in (("Added", False), ("Replaced", True)):
        told = [
            f"{counted(len(names), kind.value)} ({_named(names)})"
            for kind in Kind
            if (
                names := [c.id for c in merged.changes if c.kind is kind and c.replaced is replaced]
            )
        ]
        if told:
            lines.append(f"{word}: {'; '.join(told)}.")
    return lines


def _packs(packs: Sequence[PackChange]) -> list[str]:
    """Return the packs that came in and the prices that changed, a line each."""
    new = [_pack(pack) for pack in packs if pack.before is None and not pack.besides]
    changed = [f"{_pack(pack)} instead of {pack.before}" for pack in packs if pack.before]
    besides = [f"{_pack(pack)}, {in_a_row(pack.besides)}" for pack in packs if pack.besides]
    lines = []
    if new:
        lines.append(f"Added: {counted(len(new), 'pack')} ({_named(new)}).")
    if changed:
        lines.append(f"New prices: {_named(changed)}.")
    if besides:
        lines.append(f"Changed: {_named(besides)}.")
    return lines


def _pack(pack: PackChange) -> str:
    ml = pack.ml.rstrip("0").rstrip(".") if "." in pack.ml else pack.ml
    at = f" at {pack.seller}" if pack.seller else ""
    return f"{pack.tube} {ml} ml{at} {pack.currency} {pack.price}"


def _left(left: Sequence[str]) -> list[str]:
    return [f"Left as it was: {_named(left)}."] if left else []


def _named(names: Sequence[str]) -> str:
    rest = len(names) - MOST_NAMED
    more = f" and {rest:,} more" if rest > 0 else ""
    return in_a_row([printable(name) for name in names[:MOST_NAMED]]) + more
