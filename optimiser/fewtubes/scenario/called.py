"""What a painter calls a tube, a flower, a paper or a light, looked up in the catalogue.

Whatever prints a tube prints its name, so a name is taken wherever an id is; capitals, the spaces
between words and the way accents are stored make no difference to either.
"""

from collections.abc import Iterable, Mapping

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import listed, shown
from fewtubes.catalogue.names import alike_key
from fewtubes.catalogue.records import Tube

__all__ = ["id_of", "looked_up"]


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
        As the painter wrote them: ids or names.
    held
        What the catalogue holds, by id (flowers by name).
    kind
        What they name, e.g. ``"tube"``.
    where, collector
        Of what a name that is not held is told, and to whom.
    """
    asked = tuple(names)
    calls = {} if all(name in held for name in asked) else _calls(held)
    ids = tuple(name if name in held else calls.get(alike_key(name), name) for name in asked)
    for id_ in ids:
        if id_ not in held:
            near = _near(id_, held, collector)
            known = f" It holds {listed(held)}." if held else f" It holds no {kind}."
            what = f"the {kind} {shown(id_)} is not in the catalogue.{near or known}"
            collector.note(where, what)
    return tuple(dict.fromkeys(ids))


def id_of(name: str, held: Mapping[str, object]) -> str | None:
    """Return the id of what is called so; None if nothing is."""
    return name if name in held else _calls(held).get(alike_key(name))


def _calls(held: Mapping[str, object]) -> dict[str, str]:
    """Return the id for everything a thing may be called; ids go before names."""
    by_name = {alike_key(getattr(thing, "name", id_)): id_ for id_, thing in held.items()}
    return by_name | {alike_key(id_): id_ for id_ in held}


def _near(name: str, held: Mapping[str, object], collector: FaultCollector) -> str:
    """Return what is offered instead, ``""`` for nothing."""
    tubes = {id_: thing for id_, thing in held.items() if isinstance(thing, Tube)}
    if not tubes:
        return collector.suggestion(name, held)
    if not collector.may_compare(len(tubes)):
        return ""
    from fewtubes.scenario.likely_meant import tubes_meant

    return tubes_meant(name, tubes)
