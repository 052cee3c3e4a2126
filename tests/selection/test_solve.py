"""The door to the exact methods."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from fewtubes.errors import DefectError
from fewtubes.selection.certificate import Certificate, Choice, Method, Status
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.solve import contradictions, solve

MakeInstance = Callable[[int | str], ChoiceInstance]


@pytest.mark.parametrize("method", list(Method))
def test_methods_agree(method: Method, random_instance: MakeInstance) -> None:
    for seed in range(8):
        instance = random_instance(f"solve {seed}")
        expected = solve(instance, seconds=60)
        choice = solve(instance, seconds=60, method=method)
        assert choice.certificate.method is method
        assert choice.certificate.status is expected.certificate.status
        assert [p.rank for p in choice.palettes[:1]] == [p.rank for p in expected.palettes[:1]]


def test_names_one_method_if_the_other_ran_out_of_time(
    random_instance: MakeInstance, monkeypatch: pytest.MonkeyPatch
) -> None:
    instance = random_instance(3)
    stopped = Choice((), complete=False, certificate=certificate_of_a_stopped_run())
    monkeypatch.setattr("fewtubes.selection.solve.solve_program", lambda *_, **__: stopped)
    choice = solve(instance, seconds=60, method=Method.BOTH)
    assert choice.certificate.status is not Status.STOPPED
    assert choice.certificate.method is Method.SEARCH


def certificate_of_a_stopped_run() -> Certificate:
    return Certificate(Status.STOPPED, Method.PROGRAM, value=0, bound=9, nodes=0, seconds=1.0)


def test_disagreement_is_a_defect(
    random_instance: MakeInstance, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = next(
        instance
        for seed in range(50)
        if solve(instance := random_instance(seed), seconds=60).certificate.value > 0
    )
    other = solve(first, seconds=60, method=Method.PROGRAM)
    wrong = Choice((first.palette(()),), complete=True, certificate=other.certificate)
    monkeypatch.setattr("fewtubes.selection.solve.solve_program", lambda *_, **__: wrong)
    with pytest.raises(DefectError, match="the two exact methods contradict each other"):
        solve(first, seconds=60, method=Method.BOTH)


# --- every way in which two answers can contradict each other

PAIR = ChoiceInstance(
    weights=(5, 3),
    minimal_sets=(((0,),), ((1,),)),
    prices=(300, 200),
    fades=(1, 1),
    owned=frozenset(),
    must_have=frozenset(),
    budget=500,
    most_tubes=2,
)
"""Both tubes (500) cover 8, tube 0 alone 5, tube 1 alone 3."""


def said(
    status: Status, bought: tuple[int, ...] | None, bound: int, method: Method = Method.SEARCH
) -> Choice:
    """Return an answer that buys these tubes, or has none."""
    palettes = () if bought is None else (PAIR.palette(bought),)
    value = palettes[0].value if palettes else 0
    certificate = Certificate(status, method, value, bound, nodes=1, seconds=0.1)
    return Choice(palettes, status is not Status.STOPPED, certificate)


BEST = said(Status.PROVEN, (0, 1), 8)
PROVEN, STOPPED, INFEASIBLE = Status.PROVEN, Status.STOPPED, Status.INFEASIBLE


@pytest.mark.parametrize(
    ("other", "told"),
    [
        (said(PROVEN, (0,), 5, Method.PROGRAM), "no choice covers more than 5"),
        (said(STOPPED, (0,), 7, Method.PROGRAM), "no choice covers more than 7"),
        (said(STOPPED, None, 7, Method.PROGRAM), "no choice covers more than 7"),
        (said(INFEASIBLE, None, 0, Method.PROGRAM), "there is no answer, the exact search has one"),
    ],
)
def test_a_claim_that_the_other_answer_disproves_is_told(other: Choice, told: str) -> None:
    for pair in ((BEST, other), (other, BEST)):
        assert told in "; ".join(contradictions(PAIR, *pair))


def test_a_better_answer_than_the_proven_one_is_told_though_it_is_not_proven_itself() -> None:
    proven = said(PROVEN, (0,), 5)
    better = said(STOPPED, (0, 1), 8, Method.PROGRAM)
    assert "the integer program has one that covers 8" in "; ".join(
        contradictions(PAIR, proven, better)
    )


def test_fewer_tubes_for_as_much_are_told() -> None:
    free = replace(PAIR, minimal_sets=(((0,),), ((0,), (1,))))
    both, one = free.palette((0, 1)), free.palette((0,))
    assert both.value == one.value
    proven = Choice((both,), True, Certificate(PROVEN, Method.SEARCH, 8, 8, 1, 0.1))
    stopped = Choice((one,), False, Certificate(STOPPED, Method.PROGRAM, 8, 8, 1, 0.1))
    assert "proves that no choice ranks before" in "; ".join(contradictions(free, proven, stopped))


def test_figures_that_tubes_do_not_have_are_told() -> None:
    untrue = replace(BEST.palettes[0], value=9)
    boast = Choice((untrue,), True, replace(BEST.certificate, value=9, bound=9))
    assert "figures that they do not have" in "; ".join(contradictions(PAIR, boast, BEST))
    poor = replace(PAIR, budget=400)
    assert "figures that they do not have" in "; ".join(contradictions(poor, BEST, BEST))
    for certificate in (replace(BEST.certificate, value=7), replace(BEST.certificate, bound=9)):
        assert list(contradictions(PAIR, BEST, replace(BEST, certificate=certificate)))
    for status in (PROVEN, INFEASIBLE):
        nothing = Choice((), True, replace(BEST.certificate, status=status))
        assert list(contradictions(PAIR, BEST, nothing))


def test_answers_that_agree_are_left_in_peace(random_instance: MakeInstance) -> None:
    agreeing = [
        said(STOPPED, (0,), 8, Method.PROGRAM),
        said(STOPPED, None, 9, Method.PROGRAM),
        replace(BEST, certificate=replace(BEST.certificate, method=Method.PROGRAM)),
    ]
    assert [list(contradictions(PAIR, BEST, other)) for other in agreeing] == [[], [], []]
    for seed in range(30):
        instance = random_instance(f"agree {seed}")
        answers = [solve(instance, seconds=60, method=m) for m in (Method.SEARCH, Method.PROGRAM)]
        assert list(contradictions(instance, *answers)) == []


def test_a_contradiction_ends_in_a_sentence(monkeypatch: pytest.MonkeyPatch) -> None:
    wrong = said(STOPPED, None, 7, Method.PROGRAM)  # not proven, and yet it cannot be
    monkeypatch.setattr("fewtubes.selection.solve.solve_program", lambda *_, **__: wrong)
    with pytest.raises(DefectError) as told:
        solve(PAIR, seconds=60, method=Method.BOTH)
    assert str(told.value) == (
        "the two exact methods contradict each other: the integer program proves that no choice"
        " covers more than 7, the exact search has one that covers 8. This is a fault of the"
        " program, not of what was asked, and neither answer can be relied on."
    )
