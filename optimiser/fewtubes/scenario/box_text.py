"""The box at home as the text of its file, with a painter's own remarks kept where they stand."""

import json
import re
import tomllib

from fewtubes.errors import Fault, InputError
from fewtubes.scenario.home_box import BoxAtHome, TubeAtHome
from fewtubes.words.left import left_word

__all__ = ["box_text", "edited_text"]

BARE_KEY = re.compile(r"[A-Za-z0-9_-]+", re.ASCII)
"""A key that needs no quotation marks (TOML 1.0, keys)."""

HEADER = re.compile(r"[ \t]*\[[ \t]*tubes[ \t]*\][ \t]*(#.*)?")
"""The line that begins the table of tubes."""

ENTRY = re.compile(
    r"""[ \t]*(?P<key>[A-Za-z0-9_-]+|"[^"\\]*"|'[^']*')[ \t]*="""
    r"""[ \t]*(?P<value>"[^"\\]*"|'[^']*'|[0-9.eE+-]+)(?P<rest>[ \t]*(\#.*)?)"""
)
"""A tube on a line of its own; what is written in another way is not touched line by line."""


def box_text(box: BoxAtHome) -> str:
    """Return the text of a new file, UTF-8 TOML with a line end."""
    top = [
        f"{key} = {json.dumps(value, ensure_ascii=False)}"
        for key, value in (("title", box.title), ("catalogue", box.catalogue))
        if value
    ]
    lines = [
        *top,
        *([""] if top else []),
        "[tubes] # how full: full, half, quarter, nearly empty, empty, or a share from 0 to 1",
        *(_line(tube) for tube in box.tubes),
    ]
    return "\n".join(lines) + "\n"


def edited_text(text: str, box: BoxAtHome) -> str:
    """Return the text of a file with the tubes of a box in place of its own.

    Lines of tubes that stay as they are, remarks, title and catalogue are kept. A file whose table
    of tubes is written in another way than a tube a line is written anew, if it holds no remark.

    Parameters
    ----------
    text
        Of the file as it is, sound TOML.
    box
        What it is to hold; title and catalogue are those of the file.

    Raises
    ------
    InputError
        If it would have to be written anew and its remarks would be lost.
    """
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").removesuffix("\n").split("\n")
    edited = _edited(lines if lines != [""] else [], box)
    if _holds(edited, box):
        return edited
    if "#" in text:
        what = (
            "cannot be changed here without losing the remarks in the file; write each tube on a"
            ' line of its own under [tubes], such as lemon = "half".'
        )
        raise InputError([Fault("tubes", what)])
    return box_text(box)


def _edited(lines: list[str], box: BoxAtHome) -> str:
    """Return the lines with the table of tubes brought up to date."""
    begin = next((place for place, line in enumerate(lines) if HEADER.fullmatch(line)), None)
    if begin is None:
        lines, begin = [*lines, *([""] if lines else []), "[tubes]"], -1
        begin = len(lines) - 1
    waiting = {tube.id: tube for tube in box.tubes}
    table = []
    for line in lines[begin + 1 :]:
        entry = ENTRY.fullmatch(line)
        if entry is None:
            table.append(line)
            continue
        tube = waiting.pop(entry["key"].strip("\"'"), None)
        if tube is not None:
            same = _share(entry["value"]) == tube.left
            table.append(line if same else f"{_line(tube)}{entry['rest']}")
    while table and not table[-1].strip():
        table.pop()
    added = [_line(tube) for tube in waiting.values()]
    return "\n".join([*lines[: begin + 1], *table, *added]) + "\n"


def _line(tube: TubeAtHome) -> str:
    """Return a tube with what is left of it as a line, a word where there is one."""
    key = tube.id if BARE_KEY.fullmatch(tube.id) else json.dumps(tube.id, ensure_ascii=False)
    word = left_word(tube.left)
    return f"{key} = {json.dumps(word) if word else repr(tube.left)}"


def _share(value: str) -> float | None:
    """Return the share [0–1] that an entry stands for; None if it stands for none."""
    try:
        return TubeAtHome("any", tomllib.loads(f"x = {value}")["x"]).left
    except (ValueError, InputError):
        return None


def _holds(text: str, box: BoxAtHome) -> bool:
    """Return whether a text says of every tube what the box does, and nothing else of any."""
    try:
        values = tomllib.loads(text)
        held = BoxAtHome(values.get("tubes", {}))
    except (ValueError, InputError):
        return False
    named = {key: values.get(key, "") for key in ("title", "catalogue")}
    wanted = {"title": box.title, "catalogue": box.catalogue}
    return named == wanted and {t.id: t.left for t in held.tubes} == {
        t.id: t.left for t in box.tubes
    }
