"""The table ``[class]`` of a scenario's file."""

from collections.abc import Mapping

from fewtubes.catalogue.limits import shown
from fewtubes.errors import InputError
from fewtubes.scenario.class_wish import ClassWish, mix_fault
from fewtubes.scenario.entries import Entries, as_written, is_number, unquoted
from fewtubes.scenario.keys import CLASS_KEYS, TOP_KEYS

__all__ = ["class_asked", "pays_levy"]

NUMBERS = ("painters", "pictures", "pan_millilitres", "levy")

PAINTERS_MISSING = "is missing; give how many paint, such as 12"


def class_asked(top: Entries) -> ClassWish | None:
    """Return the class of a scenario's file; None if there is none, or after a fault.

    Parameters
    ----------
    top
        The file's top level; whether its wishes name hazards to avoid decides whether pupils do.
    """
    if "class" not in top.values:
        return None
    table = top.table("class")
    table.check_keys(CLASS_KEYS, elsewhere=TOP_KEYS)
    if "painters" not in table.values:
        table.note("painters", PAINTERS_MISSING)
        return None
    values = {key: value for key, value in table.values.items() if key in CLASS_KEYS}
    wrong = [key for key in NUMBERS if key in values and not is_number(values[key])]
    for key in wrong:
        said = f"is {as_written(values[key])}; it must be a number"
        table.note(key, f"{said}{unquoted(values[key])}")
    for key in ("tubes", "pupils"):
        if key in values and not isinstance(values[key], str):
            table.note(key, f"is {as_written(values[key])}; it must be a word in quotation marks")
            wrong.append(key)
    if wrong:
        return None
    wishes = _wishes(top)
    try:
        group = ClassWish(**values, hazards_as_wished="avoid_hazards" in wishes)  # type: ignore[arg-type]
    except InputError as error:
        for fault in error.faults:
            table.note(fault.where, fault.what)
        return None
    most = wishes.get("most_in_mix")
    if isinstance(most, int) and most > group.most_in_mix:
        top.table("wishes").note("most_in_mix", mix_fault(shown(most), group))
    return group


def pays_levy(top: Entries) -> bool:
    """Return whether the file says of a class what each pays, rightly or not."""
    table = top.values.get("class")
    return isinstance(table, dict) and "levy" in table


def _wishes(top: Entries) -> Mapping[str, object]:
    """Return what stands under the wishes; nothing if that is no table."""
    wishes = top.values.get("wishes", {})
    return wishes if isinstance(wishes, dict) else {}
