"""Names that an LP file may hold: safe, no two alike, and the same every time."""

import re
from dataclasses import replace
from pathlib import Path

import highspy
from hypothesis import given
from hypothesis import strategies as st

from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.lp_file import LONGEST_NAME, lp_text
from fewtubes.selection.program_names import LONGEST_LABEL, ProgramNames, labels

FIT = re.compile(r"[A-Za-z0-9]+(_[A-Za-z0-9]+)*")
"""Part of what the LP file format of CPLEX allows in a name; never two underscores in a row."""

NAMES = ["rose, red", "rose / red", "Rose_Red", "été", "ete", "菊", "", "+ - <= :", "9 e5", "free"]

FOUND = ("rose_red", "rose_red_2", "Rose_Red_3", "ete", "ete_2")
"""By hand, from the rules of `labels`; the rest has nothing to keep, so is told by its place."""


def test_forbidden_signs_are_mapped_and_likes_told_apart() -> None:
    assert labels(NAMES) == (*FOUND, "no_5", "no_6", "no_7", "9_e5", "free")


@given(st.lists(st.text(max_size=60)))
def test_labels_are_safe_unique_and_repeat(names: list[str]) -> None:
    found = labels(names)
    assert len(found) == len(names)
    assert len({label.casefold() for label in found}) == len(names)
    assert all(FIT.fullmatch(label) and len(label) <= LONGEST_LABEL for label in found)
    assert labels(names) == found


def test_numbers_of_names_that_look_like_others_stay_apart() -> None:
    assert labels(["a_2", "a", "a"]) == ("a_2", "a", "a_3")
    long = labels(["x" * 100] * 12)
    assert len(set(long)) == 12
    assert max(map(len, long)) == LONGEST_LABEL


def test_a_program_with_the_oddest_and_longest_names_is_read(tmp_path: Path) -> None:
    """Tube 0 alone brings 5, tubes 1, 2 and 3 bring 3 + 2 but cost more than the 700 there are."""
    instance = ChoiceInstance(
        weights=(5, 3, 2),
        minimal_sets=(((0,),), ((1, 2, 3),), ((1, 2, 3),)),
        prices=(400, 300, 200, 300),
        fades=(1, 2, 1, 3),
        owned=frozenset(),
        must_have=frozenset(),
        budget=700,
        most_tubes=4,
    )
    for tubes, samples in (
        (["st", "free", "e9", "binaries"], ["end", "bounds", "max"]),
        (["菊" * 50, "x" * 200, "X" * 200, "x," * 100], ["y" * 200, "y" * 199, "Y" * 198]),
    ):
        names = ProgramNames(labels(tubes), labels(samples))
        path = tmp_path / "odd.lp"
        path.write_text(lp_text(instance, names=names, said=["a", "b"]), encoding="utf-8")
        solver = highspy.Highs()
        solver.setOptionValue("output_flag", False)
        assert solver.readModel(str(path)) == highspy.HighsStatus.kOk
        assert solver.getNumCol() == 4 + 3 + 3 + 1  # tubes, samples, sets held, the worst category
        solver.run()
        assert solver.getInfo().objective_function_value == 5
        read = [solver.getColName(column)[1] for column in range(solver.getNumCol())]
        assert f"buy_{names.tubes[3]}" in read
        assert max(map(len, read)) <= LONGEST_NAME
    assert lp_text(instance) == lp_text(replace(instance))
