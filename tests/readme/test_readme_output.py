"""What the README says its first command prints is what it prints now.

The README may leave lines out at a line ``[...]``; every piece between such gaps must stand in the
output, whole and in order, the first at its beginning and the last at its end. Only the time and
the number of branches, which differ from machine to machine, are masked.
"""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

GAP = "[...]"

LEAST_LINES = 40
"""Fewer would not show the answer; this also keeps an empty block from passing."""

SEARCH_EFFORT = re.compile(
    r"\s+By\s+exact\s+search\s+in\s+[\d.,]+\s+s,\s+looking\s+at\s+[\d,]+\s+branch(es)?\."
)
"""Wrapped by what it says, so the white space before it is masked as well."""


@pytest.fixture(scope="module")
def readme() -> str:
    return (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def arguments(readme: str) -> list[str]:
    """Return what the first command hands to the program."""
    (command,) = re.findall(r"^python3 -m venv .*\.venv/bin/fewtubes (shop .*)$", readme, re.M)
    return shlex.split(command)


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder that looks like the project's to the command."""
    found = tmp_path_factory.mktemp("readme")
    (found / "scenarios").symlink_to(ROOT / "scenarios")
    return found


@pytest.fixture(scope="module")
def output(arguments: list[str], folder: Path) -> str:
    """Return what the command prints in a process of its own, with nothing remembered."""
    environment = {
        name: value
        for name, value in os.environ.items()
        if name not in {"FORCE_COLOR", "NO_COLOR", "TTY_COMPATIBLE"}
    }
    environment |= {
        "COLUMNS": "100",
        "FEWTUBES_CACHE": str(folder / "cache"),
        "PYTHONIOENCODING": "utf-8",
    }
    done = subprocess.run(  # noqa: S603  # our own program, arguments from our own README
        [sys.executable, "-m", "fewtubes", *arguments],
        cwd=folder,
        env=environment,
        capture_output=True,
        check=False,
        encoding="utf-8",
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def block(readme: str) -> str:
    """Return the output as the README has it."""
    return str(re.findall(r"^```text\n(.*?)^```$", readme, re.M | re.S)[0])


def masked(text: str) -> str:
    """Return text without what differs from machine to machine."""
    return SEARCH_EFFORT.sub(" By exact search.", text)


def fault(block: str, output: str) -> str | None:
    """Return what the README shows and the program does not print, or None."""
    pieces = [piece.strip("\n") for piece in masked(block).split(f"\n{GAP}\n")]
    left = masked(output).strip("\n")
    if not left.startswith(pieces[0]):
        return f"the output does not begin like this:\n{pieces[0]}"
    if not left.endswith(pieces[-1]):
        return f"the output does not end like this:\n{pieces[-1]}"
    for piece in pieces:
        place = f"\n{left}\n".find(f"\n{piece}\n")
        if place < 0:
            return f"the output does not hold, at its place:\n{piece}"
        left = left[place + len(piece) :]
    return f"the README leaves out without a gap:\n{left}" if left.strip("\n") else None


def test_readme_shows_enough_of_it(block: str) -> None:
    lines = block.splitlines()
    assert len(lines) >= LEAST_LINES
    for heading in ("Answer", "To buy", "Covered", "Puddles", "Take care"):
        assert heading in lines
    assert "This choice is proven best." in " ".join(block.split())
    assert "out of reach" in block


def test_readme_shows_what_is_printed_and_a_stale_line_would_be_noticed(
    block: str, output: str
) -> None:
    """Change, drop or double any line but those of the masked sentence: it is told.

    Dropping the last line before a gap or the first after it only widens the gap.
    """
    found = fault(block, output)
    assert found is None, f"{found}\nIf that is meant: python tests/readme/renew_output.py"
    lines = block.splitlines()
    full = [line for line in lines if line.strip()]
    gaps = [place for place, line in enumerate(full) if line == GAP]
    beside_gap = {full[place + side] for place in gaps for side in (-1, 1)}
    for number, line in enumerate(lines):
        if line == GAP or not line.strip():
            continue
        for stale in ([], [f"{line}."], [line, line]):
            if not stale and line in beside_gap:
                continue
            text = "\n".join([*lines[:number], *stale, *lines[number + 1 :]]) + "\n"
            if masked(text) != masked(block):
                assert fault(text, output) is not None, f"line {number}: {stale}"


def test_mask_hides_time_and_branches_only() -> None:
    # Written by hand after the report's sentence.
    sentence = "less money. By exact search\n  in 12.5 s, looking at 1,234 branches.\n  That is"
    assert masked(sentence) == "less money. By exact search.\n  That is"
    assert masked("EUR 12.50 for 4 tubes") == "EUR 12.50 for 4 tubes"


def test_the_files_it_speaks_of_are_written(output: str, folder: Path, readme: str) -> None:
    assert "Written to 'my-plan'" in output
    names = sorted(path.name for path in (folder / "my-plan").iterdir())
    assert names == ["plan.json", "puddles.csv", "recipes.csv", "shopping-list.csv"]
    assert all(f"`{name}`" in readme for name in names)
