"""The text of a box's file: what is written is what is read, and remarks are kept."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.errors import InputError
from fewtubes.scenario.box_file import read_box
from fewtubes.scenario.box_text import box_text, edited_text
from fewtubes.scenario.home_box import BoxAtHome

WRITTEN = """\
# what is in the tin
title = "My tin"

[tubes] # by eye
lemon = "half" # bought in spring
"magenta" = 0.3
  ochre = 'full'   # the old one
# whites
white = 1

"""

TIN = BoxAtHome(
    {"lemon": 0.5, "magenta": 0.3, "ochre": 1.0, "white": 1.0},
    title="My tin",
)


def test_nothing_changed_changes_nothing() -> None:
    assert edited_text(WRITTEN, TIN) == WRITTEN.rstrip("\n") + "\n"


def test_only_lines_that_change_are_touched() -> None:
    box = TIN.with_tubes(["lemon"], 0.1).without(["ochre"]).with_tubes(["sepia"], 0.6)
    assert edited_text(WRITTEN, box) == (
        WRITTEN.replace('lemon = "half" #', 'lemon = "nearly empty" #')
        .replace("  ochre = 'full'   # the old one\n", "")
        .rstrip("\n")
        + "\nsepia = 0.6\n"
    )


@pytest.mark.parametrize(
    "text",
    [
        "",
        'title = "My tin"',
        'title = "My tin"\ntubes = { lemon = "half" }\n',
        'title = "My tin"\ntubes.lemon = "half"\n',
        'title = "My tin"\n[tubes]\nlemon = """half"""\n',
        'title = "My tin"\r\n[tubes]\r\nlemon = 0.5\r\n',
        '\ufefftitle = "My tin"\n[tubes]\n',
    ],
)
def test_whatever_the_form_the_box_is_held(text: str) -> None:
    """What is written in another way than a line a tube is written anew."""
    values = tomllib.loads(edited_text(text, TIN))
    assert values["title"] == "My tin"
    assert BoxAtHome(values["tubes"]).left("magenta") == 0.3
    assert len(values["tubes"]) == 4


def test_a_remark_that_looks_like_a_tube_is_no_tube() -> None:
    text = '[tubes]\n# lemon = "full"\n'
    assert edited_text(text, BoxAtHome({"lemon": 0.5})) == f'{text}lemon = "half"\n'


SHARES = st.floats(0, 1) | st.sampled_from([0.0, 0.1, 0.25, 0.5, 1.0])
BOXES = st.builds(
    BoxAtHome,
    st.dictionaries(st.from_regex(r"[a-z0-9]{1,8}(-[a-z0-9]{1,5})?", fullmatch=True), SHARES),
    title=st.sampled_from(["", "tin", 'the "old" tin \\ of Zoë']),
    catalogue=st.sampled_from(["", "my-paints", "../so oder\\so"]),
)


@given(box=BOXES, other=BOXES)
def test_what_is_written_is_read_again(
    box: BoxAtHome, other: BoxAtHome, tmp_path_factory: pytest.TempPathFactory
) -> None:
    path: Path = tmp_path_factory.getbasetemp() / "tin.toml"
    path.write_text(box_text(box), encoding="utf-8")
    assert read_box(path) == box
    changed = BoxAtHome(other.tubes, title=box.title, catalogue=box.catalogue)
    path.write_text(edited_text(box_text(box), changed), encoding="utf-8")
    found = read_box(path)
    assert {(t.id, t.left) for t in found.tubes} == {(t.id, t.left) for t in changed.tubes}
    assert (found.title, found.catalogue) == (box.title, box.catalogue)


@pytest.mark.parametrize(
    "text",
    [
        'tubes = { lemon = "half" } # from my aunt\n',
        '# from my aunt\ntubes.lemon = "half"\n',
        '# from my aunt\n[tubes]\nlemon = """half"""\n',
    ],
)
def test_remarks_that_would_be_lost_are_told(text: str) -> None:
    with pytest.raises(InputError, match="without losing the remarks in the file; write each tube"):
        edited_text(text, BoxAtHome({"lemon": 0.5, "magenta": 1.0}))


@pytest.mark.parametrize("sign", ["\u2028", "\u2029", "\x85"])
def test_a_remark_is_kept_whatever_line_ends_other_programs_see_in_it(sign: str) -> None:
    """Lines of TOML end with LF or CR LF alone (TOML 1.0, newline)."""
    text = f'# from{sign}my aunt\n[tubes]\nlemon = "half" # a{sign}gift\n'
    assert edited_text(text, BoxAtHome({"lemon": 0.5, "sepia": 1.0})) == text + 'sepia = "full"\n'


def test_a_file_of_remarks_alone_keeps_them() -> None:
    assert edited_text("# nothing yet\n", BoxAtHome({"lemon": 0.5})) == (
        '# nothing yet\n\n[tubes]\nlemon = "half"\n'
    )
