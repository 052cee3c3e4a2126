"""Scenarios drawn at random from the flowers of the demo, as files."""

import random
from collections.abc import Sequence
from pathlib import Path

__all__ = ["write_scenarios"]


def write_scenarios(
    folder: Path, flowers: Sequence[str], *, count: int, rng: random.Random
) -> tuple[Path, ...]:
    """Write scenarios of three to nine flowers and 8 to 30 euro; return their files."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = []
    for number in range(count):
        path = folder / f"week-{number + 1:03}.toml"
        path.write_text(_text(number + 1, flowers, rng), encoding="utf-8")
        paths.append(path)
    return tuple(paths)


def _text(number: int, flowers: Sequence[str], rng: random.Random) -> str:
    lines = [
        f'title = "Week {number}"',
        'currency = "EUR"',
        f"budget = {rng.randint(80, 300) / 10:.2f}",
    ]
    for name in rng.sample(list(flowers), rng.randint(3, 9)):
        lines += ["", "[[flower]]", f'name = "{name}"', f"importance = {rng.randint(1, 3)}"]
    return "\n".join(lines) + "\n"
