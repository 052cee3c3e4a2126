"""A scenario as the text of its file, from which the very same scenario is read again."""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from decimal import Decimal
from fractions import Fraction

import numpy as np

from fewtubes import defaults
from fewtubes.catalogue.exact import Number
from fewtubes.catalogue.limits import shown
from fewtubes.catalogue.records import Hazard
from fewtubes.colour.bands import WAVELENGTH_NM, FloatArray
from fewtubes.colour.display import hex_to_lab, lab_to_hex
from fewtubes.errors import Fault, InputError
from fewtubes.mixing.recipes import MOST_IN_MIX
from fewtubes.scenario.box_text import box_text
from fewtubes.scenario.checks import Lab
from fewtubes.scenario.class_wish import ClassWish
from fewtubes.scenario.demands import ANY_HAZARD
from fewtubes.scenario.own_flowers import OwnFlower, OwnSwatch, usual_importance
from fewtubes.scenario.picture_wish import PICTURE_NUMBERS, PictureWish
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.wanted import FlowerWish, OwnColour

__all__ = ["BOX_NAME", "decimal_text", "scenario_contents", "scenario_text"]

BOX_NAME = "box.toml"
"""The file of the box at home beside that of a scenario."""

WIDE = 88
"""Columns up to which a list stands on one line."""

UNPRINTED = re.compile("[\x7f-\x9f]")
"""What JSON leaves as it is in a text, but TOML or an editor would not take."""


def scenario_contents(scenario: Scenario, name: str = "scenario.toml") -> Mapping[str, str]:
    """Return a scenario as files, by plain file name: its own, and those that it refers to.

    Read in one folder by `fewtubes.scenario.reading.read_scenario` they give the same scenario,
    to the last digit, except importances that no decimal number holds, such as a third.

    Parameters
    ----------
    scenario
        Any.
    name
        Of the scenario's file; the others are ``box.toml``, if there is a box at home, and a table
        for each colour that was measured.
    """
    box = scenario.wishes.box
    measured = {
        id(one): f"measured-{number}.csv" for number, one in enumerate(_measured(scenario), start=1)
    }
    tables = {measured[id(one)]: _measured_text(one.reflectance) for one in _measured(scenario)}
    boxes = {BOX_NAME: box_text(box)} if box.tubes else {}
    return {name: _text(scenario, box=BOX_NAME if box.tubes else "", measured=measured)} | (
        boxes | tables
    )


def scenario_text(scenario: Scenario) -> str:
    """Return a scenario as one file, UTF-8 TOML with a line end.

    The tubes of a box at home that are not empty stand under ``owned``, since how full they are is
    told by a file of its own.

    Raises
    ------
    InputError
        If a colour was measured, which takes a file beside this one; told of ``own_colours``.

    Examples
    --------
    >>> from fewtubes import Scenario
    >>> scenario = Scenario(budget="12.50", currency="EUR", flowers=["foxglove", ("daffodil", 2)])
    >>> print(scenario_text(scenario), end="")
    title = "My flowers"
    currency = "EUR"
    budget = 12.50
    <BLANKLINE>
    [[flower]]
    name = "foxglove"
    <BLANKLINE>
    [[flower]]
    name = "daffodil"
    importance = 2
    """
    measured = next((one.name for one in _measured(scenario)), None)
    if measured is not None:
        what = f"{shown(measured)} was measured, which takes a file beside the scenario's."
        raise InputError([Fault("own_colours", what)])
    return _text(scenario, box="", measured={})


def _measured(scenario: Scenario) -> Iterator[OwnColour | OwnSwatch]:
    """Yield the colours that were measured."""
    swatches = (one for flower in scenario.own_flowers for one in flower.swatches)
    colours: list[OwnColour | OwnSwatch] = [*swatches, *scenario.own_colours]
    for colour in colours:
        if colour.reflectance is not None:
            yield colour


def _text(scenario: Scenario, *, box: str, measured: Mapping[int, str]) -> str:
    """Return the text; `measured` names the file of each colour that was, by `id`."""
    blocks = [
        [*_top(scenario, box)],
        *(block for flower in scenario.flowers for block in _flower(flower, measured)),
        *(
            ["[[colour]]", *_colour(colour, measured), *_counts_and_area(colour)]
            for colour in scenario.own_colours
        ),
        [*_wishes(scenario.wishes, scenario.group)],
        [*_class(scenario.group)],
        [*_picture(scenario.picture, scenario.group)],
    ]
    return "\n\n".join("\n".join(block) for block in blocks if block) + "\n"


def _top(scenario: Scenario, box: str) -> Iterator[str]:
    """Yield what stands at the top; what is as usual is left out."""
    wishes = scenario.wishes
    yield f"title = {_quoted(scenario.title)}"
    if scenario.shows:
        yield f"shows = {_quoted(scenario.shows)}"
    yield f"currency = {_quoted(scenario.currency)}"
    if scenario.group is None or scenario.group.levy is None:
        yield f"budget = {scenario.budget:f}"
    if scenario.prices:
        yield f"prices = {_quoted(scenario.prices)}"
    if scenario.most_tubes is not None:
        yield f"most_tubes = {scenario.most_tubes}"
    if scenario.tolerance != defaults.TOLERANCE:
        yield f"tolerance = {decimal_text(scenario.tolerance)}"
    usual = {"paper": defaults.PAPER, "light": defaults.LIGHT, "prefer": defaults.PREFER}
    for key, word in usual.items():
        if getattr(scenario, key) != word:
            yield f"{key} = {_quoted(getattr(scenario, key))}"
    if scenario.nearer:
        yield "nearer = true"
    lists = {
        "owned": wishes.owned if box else wishes.all_owned,
        "must_have": wishes.must_have,
        "never": wishes.never,
    }
    if not box:  # what is refused cannot be listed as owned; only a box can hold it
        lists["owned"] = tuple(id_ for id_ in lists["owned"] if id_ not in wishes.never)
    for key, ids in lists.items():
        if ids:
            yield f"{key} = {_list(ids)}"
    if box:
        yield f"box = {_quoted(box)}"


def _flower(flower: FlowerWish | OwnFlower, measured: Mapping[int, str]) -> Iterator[list[str]]:
    """Yield the table of a flower, and one for each of its colours if it is one's own."""
    name = f"name = {_quoted(flower.name)}"
    yield ["[[flower]]", name, *_counts_and_area(flower)]
    for swatch in flower.swatches if isinstance(flower, OwnFlower) else ():
        counts = swatch.importance
        told = () if counts in (None, usual_importance(swatch.role)) else _counted(counts)
        role = f"role = {_quoted(swatch.role.value)}"
        yield ["[[flower.swatch]]", *_colour(swatch, measured, role), *told]


def _colour(
    colour: OwnColour | OwnSwatch, measured: Mapping[int, str], *more: str
) -> Iterator[str]:
    """Yield name and colour, what else there is between the two."""
    yield f"name = {_quoted(colour.name)}"
    yield from more
    yield _lab(colour.lab) if colour.lab else f"reflectance = {_quoted(measured[id(colour)])}"


def _lab(lab: Lab) -> str:
    """Return a colour as a screen shows it if it is just that, else as CIELAB."""
    screen = lab_to_hex(np.array(lab))
    if tuple(hex_to_lab(screen).tolist()) == lab:
        return f"hex = {_quoted(screen)}"
    return f"lab = [{', '.join(decimal_text(value) for value in lab)}]"


def _counted(importance: Number | None) -> Iterator[str]:
    if importance is not None:
        yield f"importance = {decimal_text(importance)}"


def _class(group: ClassWish | None) -> Iterator[str]:
    """Yield the table of a class; nothing if there is none."""
    if group is None:
        return
    yield "[class]"
    yield f"painters = {group.painters}"
    if group.pictures is not None:
        yield f"pictures = {group.pictures}"
    yield f"tubes = {_quoted(group.tubes.value)}"
    if group.pan_millilitres is not None:
        yield f"pan_millilitres = {decimal_text(group.pan_millilitres)}"
    if group.levy is not None:
        yield f"levy = {group.levy:f}"
    yield f"pupils = {_quoted(group.pupils.value)}"


def _counts_and_area(painted: FlowerWish | OwnFlower | OwnColour) -> Iterator[str]:
    """Yield what a flower or colour counts and how large it is painted, where that is said."""
    if painted.importance != 1:
        yield from _counted(painted.importance)
    if painted.area_cm2 is not None:
        yield f"area_cm2 = {decimal_text(painted.area_cm2)}"


def _picture(picture: PictureWish | None, group: ClassWish | None) -> Iterator[str]:
    """Yield the table of pictures planned, without what is as usual or what a class tells."""
    if picture is None:
        return
    usual = PictureWish()
    yield "[picture]"
    for key in PICTURE_NUMBERS:
        value = getattr(picture, key)
        counted = key == "pictures"
        if (counted and group is None) or (not counted and value != getattr(usual, key)):
            yield f"{key} = {decimal_text(value)}"


def _wishes(wishes: Wishes, group: ClassWish | None) -> Iterator[str]:
    """Yield the table of wishes; nothing if there are none. What a class asks goes unsaid."""
    light, sheer = wishes.lightfastness_floor, wishes.transparency_floor
    hazards = [hazard.value for hazard in wishes.avoid_hazards]
    if wishes.avoid_hazards == tuple(Hazard):
        hazards = [ANY_HAZARD]
    implied = group is not None and group.avoids_every_hazard
    none = group is not None and group.hazards_as_wished and not hazards
    most = MOST_IN_MIX if group is None else group.most_in_mix
    entries = {
        "lightfastness": _quoted(light.name) if light is not None else "",
        "transparency": _quoted(sheer.word) if sheer is not None else "",
        "avoid_hazards": _list(hazards) if none or (hazards and not implied) else "",
        **{
            key: decimal_text(getattr(wishes, key)) if getattr(wishes, key) else ""
            for key in ("millilitres", "thinnest_wash", "least_coverage")
        },
        "most_in_mix": f"{wishes.most_in_mix}" if wishes.most_in_mix < most else "",
    }
    told = [f"{key} = {value}" for key, value in entries.items() if value]
    if told:
        yield "[wishes]"
        yield from told


def decimal_text(value: Number) -> str:
    """Return a number in decimals: exactly, or the nearest that a double holds if none is exact.

    Examples
    --------
    >>> from fractions import Fraction
    >>> decimal_text(Fraction(5, 4)), decimal_text(2), decimal_text(0.1)
    ('1.25', '2', '0.1')
    """
    if isinstance(value, float):
        return repr(value)
    fraction = Fraction(value)
    rest = fraction.denominator
    for prime in (2, 5):
        while rest % prime == 0:
            rest //= prime
    if rest != 1:
        return repr(float(fraction))
    places = 0
    while fraction.denominator != 1:
        fraction, places = fraction * 10, places + 1
    digits = str(Decimal(fraction.numerator)).rjust(places + 1, "0")  # `str` refuses a long `int`
    return f"{digits[:-places]}.{digits[-places:]}" if places else digits


def _list(words: Sequence[str]) -> str:
    """Return a list, an entry a line if it is long."""
    quoted = [_quoted(word) for word in words]
    line = f"[{', '.join(quoted)}]"
    if len(line) <= WIDE:
        return line
    return "\n".join(["[", *(f"    {word}," for word in quoted), "]"])


def _quoted(text: str) -> str:
    """Return a text as a basic string of TOML 1.0."""
    quoted = json.dumps(text, ensure_ascii=False)
    return UNPRINTED.sub(lambda sign: f"\\u{ord(sign[0]):04x}", quoted)


def _measured_text(reflectance: FloatArray | None) -> str:
    """Return a measurement on the bands as a table, each number to its last digit."""
    values = [] if reflectance is None else reflectance.tolist()
    rows = [f"{nm:g},{value!r}" for nm, value in zip(WAVELENGTH_NM, values, strict=False)]
    return "\n".join(["nm,reflectance", *rows]) + "\n"
