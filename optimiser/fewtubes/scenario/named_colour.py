"""A colour named in a word: as on a screen, in CIELAB, or as a swatch of a flower."""

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.limits import LIGHTNESS, OPPONENT, listed, parsed_number, shown
from fewtubes.catalogue.names import alike_key, composed
from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.display import hex_to_lab
from fewtubes.errors import Fault, InputError, suggestion
from fewtubes.scenario.called import id_of, looked_up

__all__ = ["Lab", "lab_named"]

Lab = tuple[float, float, float]

FORMS = "write it as #rrggbb, as three numbers L,a,b, or as 'flower / swatch'"


def lab_named(text: str, catalogue: Catalogue) -> Lab:
    """Return CIELAB of a colour; a fault is told of ``colour``.

    Parameters
    ----------
    text
        ``#rrggbb``, ``L,a,b`` or ``flower / swatch``.
    catalogue
        Holds the flowers.

    Raises
    ------
    InputError
        If it is none of these, or no such flower or swatch is there.
    """
    text = composed(text)
    if text.startswith("#"):
        return _of_hex(text)
    parts = [parsed_number(part.strip()) for part in text.split(",")]
    if all(part is not None for part in parts):
        return _of_numbers(text, [part for part in parts if part is not None])
    if "/" in text or id_of(text, catalogue.flowers) is not None:
        return _of_swatch(text, catalogue)
    raise _fault(f"is {shown(text)}; {FORMS}.{suggestion(text, catalogue.flowers)}")


def _of_hex(text: str) -> Lab:
    try:
        lightness, a, b = hex_to_lab(text).tolist()
    except ValueError:
        raise _fault(f"is {shown(text)}; it must be written as #rrggbb, such as #c21e56.") from None
    return lightness, a, b


def _of_numbers(text: str, numbers: list[float]) -> Lab:
    if len(numbers) != 3:
        raise _fault(
            f"is {shown(text)}; CIELAB takes three numbers, such as 45,60,5, with a point before"
            " decimals."
        )
    for axis, number, allowed in zip(
        ("L*", "a*", "b*"), numbers, (LIGHTNESS, OPPONENT, OPPONENT), strict=True
    ):
        if not allowed.admits(number):
            raise _fault(f"is {shown(text)}; {axis} must be a number {allowed}.")
    return numbers[0], numbers[1], numbers[2]


def _of_swatch(text: str, catalogue: Catalogue) -> Lab:
    """Return the colour of a swatch; a flower's or swatch's name may hold a stroke itself."""
    places = [place for place, sign in enumerate(text) if sign == "/"] or [len(text)]
    names = [(text[:place].strip(), text[place + 1 :].strip()) for place in places]
    called = [(id_of(flower, catalogue.flowers), swatch) for flower, swatch in names]
    known = [(flower, swatch) for flower, swatch in called if flower is not None]
    for flower, swatch in known:
        for candidate in catalogue.flowers[flower].swatches:
            if alike_key(candidate.name) == alike_key(swatch):
                return candidate.lab
    if not known:
        collector = FaultCollector()
        looked_up([names[0][0]], catalogue.flowers, "flower", where="colour", collector=collector)
        collector.raise_if_any()
    flower, swatch = known[0]
    swatches = [candidate.name for candidate in catalogue.flowers[flower].swatches]
    if not swatch:
        example = shown(f"{flower} / {swatches[0]}")
        raise _fault(
            f"names the flower {shown(flower)} but none of its swatches; add one, such as"
            f" {example}; it has {listed(swatches)}."
        )
    raise _fault(
        f"the flower {shown(flower)} has no swatch {shown(swatch)}; it has {listed(swatches)}."
    )


def _fault(what: str) -> InputError:
    return InputError([Fault("colour", what)])
