"""The door to the exact methods."""

from collections.abc import Callable

import pytest

from fewtubes.errors import DefectError
from fewtubes.selection.certificate import Certificate, Choice, Method, Status
from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.solve import solve

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
