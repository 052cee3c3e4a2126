"""Put the present output of the README's first command into the README.

Run it by hand after a change that is meant to change the output: ``python
tests/readme/renew_output.py``. Shown is all but what `CUT_SHORT` cuts off.
"""

import os
import re
import shlex
import subprocess
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

__all__ = ["renew"]

ROOT = Path(__file__).parents[2]
README = ROOT / "README.md"

CUT_SHORT = {"Puddles": "rose, red: "}
"""Paragraphs that end in the README before a line that begins so: one flower is enough."""

GAP = "[...]"
BLOCK = re.compile(r"(?<=^```text\n).*?(?=^```$)", re.MULTILINE | re.DOTALL)
COMMAND = re.compile(r"^.*\.venv/bin/fewtubes (shop .*)$", re.MULTILINE)


def renew() -> None:
    """Run the command and write the README."""
    text = README.read_text(encoding="utf-8")
    command = COMMAND.search(text)
    if command is None:
        raise SystemExit(f"{README.name} holds no command that ends in 'fewtubes shop …'")
    output = shortened(printed(shlex.split(command[1])))
    README.write_text(BLOCK.sub(lambda _match: output, text, count=1), encoding="utf-8")


def printed(arguments: list[str]) -> str:
    """Return what the command prints on a terminal of 100 columns."""
    with TemporaryDirectory() as folder:
        Path(folder, "scenarios").symlink_to(ROOT / "scenarios")
        environment = os.environ | {
            "COLUMNS": "100",
            "PYTHONPATH": str(ROOT / "optimiser"),
            "PYTHONIOENCODING": "utf-8",
        }
        done = subprocess.run(  # noqa: S603  # our own program, arguments from our own README
            [sys.executable, "-m", "fewtubes", *arguments],
            cwd=folder,
            env=environment,
            capture_output=True,
            check=True,
            encoding="utf-8",
        )
    return done.stdout


def shortened(output: str) -> str:
    """Return the output with gaps where `CUT_SHORT` says so; paragraphs part by a blank line."""
    kept: list[str] = []
    for paragraph in output.split("\n\n"):
        end = CUT_SHORT.get(paragraph.split("\n", 1)[0])
        place = -1 if end is None else paragraph.find(f"\n{end}")
        kept.append(paragraph if place < 0 else f"{paragraph[:place]}\n{GAP}")
    return "\n\n".join(kept)


if __name__ == "__main__":
    renew()
