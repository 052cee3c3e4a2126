"""What is said where pigment profiles were taken from another catalogue."""

from collections.abc import Sequence

from fewtubes.keeping.kept_catalogue import DEMO, KeptCatalogue
from fewtubes.words.lists import joined

__all__ = ["borrowed_told"]

INVENTED = (
    "The demo's profiles are invented for their kind of pigment, so what is computed with them is"
    " no statement about the paint in your tube; swatches of it, fitted, are one."
)


def borrowed_told(source: KeptCatalogue | None, profiles: Sequence[str]) -> tuple[str, ...]:
    """Return what is to be known of profiles that came along, in sentences; none if none did."""
    if source is None or not profiles:
        return ()
    told = f"Taken along from the {source.label}: {joined(list(profiles))}."
    if source.label == DEMO:
        return (told, INVENTED)
    return (told.replace("from the ", "from ", 1),)
