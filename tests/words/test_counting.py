"""Numbers of things."""

from fewtubes.words.counting import counted


def test_singular_and_plural() -> None:
    assert counted(1, "tube") == "1 tube"
    assert counted(0, "mix/mixes") == "0 mixes"
    assert counted(1, "mix/mixes") == "1 mix"
    assert counted(1200, "tube") == "1,200 tubes"
