"""What calls for care, in words: every harmful tube is named, and who decides."""

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.words.hazards import harm_words, hazard_words


def test_harmful_tubes_are_named_with_their_hazards_once() -> None:
    tubes = read_catalogue().tubes.values()
    harmful = [tube for tube in tubes if tube.hazards]
    said = harm_words([*tubes, *tubes])
    assert 10 < len(harmful) < len(tubes)
    named = said.partition(": ")[2].partition(". `")[0].replace("; and ", "; ").split("; ")
    assert named == [f"{tube.name} ({hazard_words(tube)})" for tube in harmful]


def test_it_always_defers() -> None:
    tubes = read_catalogue().tubes.values()
    for some in ([], [tube for tube in tubes if not tube.hazards], list(tubes)):
        said = harm_words(some)
        for authority in ("label", "safety data sheet", "local rules", "qualified advice"):
            assert authority in said
        assert said.startswith("Harmful") == any(tube.hazards for tube in some)
