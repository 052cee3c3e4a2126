"""A thousand drawn questions, each answered by the program and by trying everything.

Run from the project's folder, some night: ``python -m tests.benchmarks.check_exhaustive``. Prints
every disagreement and ends with exit code 1 if there is any. The test command asks a tenth. With
``--terms`` the questions are choices under sellers' terms, by both exact methods.
"""

import argparse
import sys
import time
from collections import Counter
from collections.abc import Iterator
from functools import partial
from multiprocessing import Pool
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.exhaustive.agreement import disagreements
from tests.exhaustive.draws import draw_question
from tests.exhaustive.terms_tried import draw_choice

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.selection.certificate import Method
from fewtubes.selection.solve import solve

QUESTIONS = 1000
SECONDS = 60.0
EVERY_BY_PROGRAM = 5
"""One question in so many is also put to the integer program."""


def main() -> int:
    """Ask them all."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--first", type=int, default=0, metavar="SEED")
    parser.add_argument("--questions", type=int, default=QUESTIONS, metavar="N")
    parser.add_argument("--terms", action="store_true", help="choices under sellers' terms")
    asked = parser.parse_args()
    began = time.perf_counter()
    seeds = range(asked.first, asked.first + asked.questions)
    with TemporaryDirectory() as folder:
        wrong = Counter(seed for seed in _disagreeing(seeds, Path(folder), asked.terms))
    seconds = time.perf_counter() - began
    sys.stdout.write(
        f"{len(seeds)} questions, {len(wrong)} answered otherwise by trying everything, "
        f"{seconds:.0f} s\n"
    )
    return 1 if wrong else 0


def _disagreeing(seeds: range, folder: Path, terms: bool) -> Iterator[int]:
    """Ask the questions in several processes; print and yield those that disagree."""
    with Pool() as pool:
        ask = _ask_under_terms if terms else partial(_ask, folder)
        for seed, faults in pool.imap_unordered(ask, seeds, chunksize=10):
            for fault in faults:
                sys.stdout.write(f"{seed}: {fault}\n")
            if faults:
                yield seed


def _ask(folder: Path, seed: int) -> tuple[int, list[str]]:
    """Return what is wrong with the answer to one question."""
    catalogue, scenario = draw_question(seed, read_catalogue())
    method = Method.SEARCH if seed % EVERY_BY_PROGRAM else Method.BOTH
    return seed, disagreements(catalogue, scenario, method=method, cache=Cache(folder))


def _ask_under_terms(seed: int) -> tuple[int, list[str]]:
    """Return the same for one choice under terms."""
    tried = draw_choice(seed)
    faults = []
    for method in (Method.BOTH, Method.PROGRAM):
        choice = solve(tried.instance, seconds=SECONDS, method=method)
        if choice.palettes != tried.best or not choice.complete:
            faults.append(f"{method}: {choice.palettes} instead of {tried.best}")
    return seed, faults


if __name__ == "__main__":
    sys.exit(main())
