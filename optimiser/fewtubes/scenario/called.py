"""What a painter calls a tube, a flower, a paper or a light, looked up in the catalogue.

Whatever prints a tube prints its name, so a name is taken wherever an id is; capitals, the spaces
between words and the way accents are stored make no difference to either.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import listed, shown
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.records import Tube
from fewtubes.quoting import quoted

__all__ = ["id_is_a_name", "id_of", "looked_up", "names_to_give", "repeated"]

MOST_TUBES_LISTED = 6
"""Tubes named where none is near; their names are longer than their ids."""


def looked_up(
    names: Iterable[str],
    held: Mapping[str, object],
    kind: str,
    *,
    where: str,
    collector: FaultCollector,
) -> tuple[str, ...]:
    """Return ids in place of names, each once; a name that is not held stands as it was written.

    Parameters
    ----------
    names
        As the painter wrote them: ids or names. A name that several bear stands for none of them.
    held
        What the catalogue holds, by id (flowers by name).
    kind
        What they name, e.g. ``"tube"``.
    where, collector
        Of what a name that is not held is told, and to whom.
    """
    asked = tuple(names)
    calls = {} if all(name in held for name in asked) else _calls(held)
    ids = tuple(name if name in held else _only(calls, name) or name for name in asked)
    for id_ in ids:
        several = calls.get(alike_key(id_), [])
        if id_ not in held and len(several) > 1:
            called = f"{len(several)} {kind}s of the catalogue are called {shown(id_)}"
            collector.note(where, f"{called}; give the id of the one meant: {listed(several)}.")
        elif id_ not in held:
            near = _near(id_, held, collector) if held else f" It holds no {kind}."
            what = f"the {kind} {shown(id_)} is not in the catalogue.{near}"
            collector.note(where, what)
    return tuple(dict.fromkeys(ids))


def id_of(name: str, held: Mapping[str, object]) -> str | None:
    """Return the id of what is called so; None if nothing is, or more than one thing."""
    return name if name in held else _only(_calls(held), name)


def _calls(held: Mapping[str, object]) -> dict[str, list[str]]:
    """Return the ids for everything that things may be called; ids go before names."""
    by_name: dict[str, list[str]] = {}
    by_id: dict[str, list[str]] = {}
    for id_, thing in held.items():
        by_name.setdefault(alike_key(getattr(thing, "name", id_)), []).append(id_)
        by_id.setdefault(alike_key(id_), []).append(id_)
    return by_name | by_id


def _only(calls: Mapping[str, list[str]], name: str) -> str | None:
    """Return the one id for a name; None if there is none, or more than one."""
    ids = calls.get(alike_key(name), [])
    return ids[0] if len(ids) == 1 else None


def repeated(names: Iterable[str], held: Mapping[str, object]) -> Iterator[tuple[str, str]]:
    """Yield every name that means what one before it means, behind that one.

    A thing may be meant by its id and by its name, in any capitals.
    """
    calls, first = _calls(held), dict[str, str]()
    for name in names:
        id_ = name if name in held else _only(calls, name) or name
        if id_ in first:
            yield first[id_], name
        else:
            first[id_] = name


def id_is_a_name(ids: Iterable[str], tubes: Mapping[str, Tube]) -> tuple[tuple[Tube, Tube], ...]:
    """Return the tubes whose id is what another tube is called, each with that other.

    Since an id goes before a name, such a text never stands for the other.

    Parameters
    ----------
    ids
        Of the tubes to look at.
    tubes
        The catalogue's, by id.
    """
    called = {alike_key(tube.name): tube for tube in tubes.values()}
    pairs = ((tubes[id_], called.get(alike_key(id_))) for id_ in ids)
    return tuple((taken, other) for taken, other in pairs if other and other.id != taken.id)


def names_to_give(tubes: Mapping[str, Tube]) -> dict[str, str]:
    """Return by id what to call each tube so that it is found: its name, or else its id."""
    calls = _calls(tubes)
    return {
        id_: tube.name if _only(calls, tube.name) == id_ else id_ for id_, tube in tubes.items()
    }


def _near(name: str, held: Mapping[str, object], collector: FaultCollector) -> str:
    """Return what is offered instead, or else what there is, tubes by their names."""
    tubes = {id_: thing for id_, thing in held.items() if isinstance(thing, Tube)}
    if not tubes:
        return collector.suggestion(name, held) or f" It holds {listed(held)}."
    if not collector.may_compare(len(tubes)):
        return f" It holds {_first([*names_to_give(tubes).values()])}."
    from fewtubes.scenario.likely_meant import spelt_nearest, tubes_meant

    near = tubes_meant(name, tubes)
    few = spelt_nearest(name, tubes)[:MOST_TUBES_LISTED]  # of the rest nothing is worth telling
    return near or f" It holds none like it; spelt most like it: {_first(few)}."


def _first(names: Sequence[str]) -> str:
    """Return the first of many names, each whole so that it can be typed as it stands."""
    first = "; ".join(quoted(name) for name in names[:MOST_TUBES_LISTED])
    rest = len(names) - MOST_TUBES_LISTED
    return f"{first} and {rest:,} more" if rest > 0 else first
