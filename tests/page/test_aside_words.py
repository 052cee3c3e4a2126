"""What is said beside the choice of tubes."""

from dataclasses import replace

from fewtubes.catalogue.records import Catalogue
from fewtubes.comparison.mixes import mix
from fewtubes.coverage.cache import Cache
from fewtubes.page.aside_words import mix_answer


def test_all_some_or_none_of_the_mixes_are_near(demo: Catalogue) -> None:
    found = mix(demo, "foxglove / bell", tubes=["magenta", "ultramarine"], cache=Cache())
    assert len(found.rated) > 1
    off = [rated.match.difference for rated in found.rated]
    shown = len(off)

    def told(tolerance: float, most: int = shown) -> str:
        return mix_answer(replace(found, tolerance=tolerance, rated=found.rated[:most]))

    assert told(20.0 + max(off)).startswith(f"All {shown} mixes shown are within ΔE00")
    assert told(min(off) / 2).startswith(f"None of the {shown} mixes shown is within ΔE00")
    assert told(min(off)).startswith(f"Of {shown} mixes shown, 1 is within ΔE00")
    assert told(off[0], 1).startswith("The one mix shown is within ΔE00")
    assert told(off[0] / 2, 1).startswith("The one mix shown is not within ΔE00")
