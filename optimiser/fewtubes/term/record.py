"""What earlier runs have done, so that a batch that was broken off goes on where it stopped.

Beside the folders of the results, in a hidden one, stands a small file for each scenario: the
digest of all that its answer follows from, the digests of its files, and its row. It is written
together with the files, all or none. What has the same digest, and whose files are still there as
they were written, is not done again.
"""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, replace
from hashlib import sha256
from pathlib import Path

from fewtubes import __version__
from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.value_digest import digest_of
from fewtubes.files.regular_files import read_regular
from fewtubes.files.writing import write_together
from fewtubes.term.answering import Answer, Settings
from fewtubes.term.asked import Asked
from fewtubes.term.findings import BatchRow

__all__ = ["RECORDS", "Records"]

RECORDS = ".done"
"""Name of the hidden folder."""

FORMAT = 2
"""Raised when a record would be read wrongly, or the same question is answered otherwise."""

MOST_BYTES = 2**24
"""Longest record that is read; a thousand times what one takes."""

LONGEST_FILE = 2**28
"""Longest result that is looked at [bytes]; a hundred times the longest report."""


@dataclass(eq=False)
class Records:
    """The records in a folder of results."""

    folder: Path
    settings: Settings
    _catalogues: dict[int, tuple[Catalogue, str]] = field(default_factory=dict)
    """Digest of each catalogue met, which many scenarios share, by identity; held, so that none
    other takes its place."""

    def digest(self, asked: Asked) -> str:
        """Return the digest of all that the answer to a scenario follows from."""
        catalogue = asked.catalogue
        if catalogue is None:
            raise ValueError(f"'{asked.name}' has a fault and no answer")
        if id(catalogue) not in self._catalogues:
            self._catalogues[id(catalogue)] = (catalogue, digest_of(catalogue))
        known = self._catalogues[id(catalogue)][1]
        basis = (FORMAT, __version__, known, asked.file, asked.scenario, self.settings)
        return digest_of(basis)

    def done(self, asked: Asked) -> BatchRow | None:
        """Return the row of a scenario that is answered and unchanged, its files being there."""
        data = read_regular(self._path(asked.name), most=MOST_BYTES)
        if data is None:
            return None
        try:
            known = json.loads(data)
            row = _row(known["row"])
            same = known["digest"] == self.digest(asked) and self._there(asked.name, known["files"])
        except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
            return None
        return replace(row, done_before=True) if same and row.name == asked.name else None

    def write(self, asked: Asked, answer: Answer) -> None:
        """Write the results of a scenario and its record, all or none.

        Raises
        ------
        OutputError
            If a file could not be written; nothing was changed then.
        """
        record = {
            "digest": self.digest(asked),
            "files": {name: sha256(data).hexdigest() for name, data in answer.files.items()},
            "row": asdict(answer.row),
        }
        text = json.dumps(record, ensure_ascii=True, indent=1, allow_nan=False) + "\n"
        path = self._path(asked.name)
        write_together({self.folder / asked.name: answer.files, path.parent: {path.name: text}})

    def _path(self, name: str) -> Path:
        return self.folder / RECORDS / f"{name}.json"

    def _there(self, name: str, files: Mapping[str, str]) -> bool:
        """Whether the files of a scenario are there as they were written."""
        return bool(files) and all(
            Path(file).name == file and self._digest(name, file) == told
            for file, told in files.items()
        )

    def _digest(self, name: str, file: str) -> str | None:
        data = read_regular(self.folder / name / file, most=LONGEST_FILE)
        return None if data is None else sha256(data).hexdigest()


def _row(values: Mapping[str, object]) -> BatchRow:
    """Return a row from what a record holds of it; TypeError if it holds something else."""
    plain = BatchRow("", "")
    kinds = {name: type(value) for name, value in asdict(plain).items()}
    told = {name: tuple(v) if isinstance(v, list) else v for name, v in values.items()}
    if any(type(value) is not kinds[name] for name, value in told.items()):
        raise TypeError("a record of another form")
    return replace(plain, **told)  # type: ignore[arg-type]  # looked at in the line before
