"""The demo catalogue is sound, read without heavy packages, and of the size it promises."""

import subprocess
import sys

from tests.faults import faults_of_catalogue

from fewtubes.catalogue.reading import read_catalogue


def test_it_has_no_fault() -> None:
    assert faults_of_catalogue() == ()


def test_it_is_as_large_as_designed() -> None:
    catalogue = read_catalogue()
    # The fewest that the demo is to hold: 60 tubes, 40 pigments, 30 flowers and leaves.
    assert catalogue.label == "demo catalogue"
    assert len(catalogue.tubes) >= 60
    assert len(catalogue.pigments) >= 40
    assert len(catalogue.flowers) >= 30


def test_reading_imports_no_heavy_package() -> None:
    code = (
        "import sys; from fewtubes.catalogue.reading import read_catalogue; read_catalogue();"
        "print(sorted({'pandas', 'scipy', 'colour', 'matplotlib'} & set(sys.modules)))"
    )
    done = subprocess.run(  # noqa: S603 - the interpreter that runs this test
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert done.stdout.strip() == "[]"
