"""How many workers a machine keeps busy, on every kind of machine."""

import os

import pytest

from fewtubes.workers import MOST_THREADS, MOST_WORKERS, thread_count, worker_count


def test_what_the_process_may_use_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "process_cpu_count", lambda: 3, raising=False)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _process: {0}, raising=False)
    assert worker_count() == 3


def test_before_python_3_13_the_affinity_counts(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(os, "process_cpu_count", raising=False)
    monkeypatch.setattr(os, "sched_getaffinity", lambda _process: {1, 4, 5, 7}, raising=False)
    assert worker_count() == 4
    assert thread_count() == MOST_THREADS


@pytest.mark.parametrize(("there", "count"), [(6, 6), (None, 1), (256, MOST_WORKERS)])
def test_elsewhere_what_the_machine_has(
    monkeypatch: pytest.MonkeyPatch, there: int | None, count: int
) -> None:
    monkeypatch.delattr(os, "process_cpu_count", raising=False)
    monkeypatch.delattr(os, "sched_getaffinity", raising=False)
    monkeypatch.setattr(os, "cpu_count", lambda: there)
    assert worker_count() == count


@pytest.mark.skipif(not hasattr(os, "sched_setaffinity"), reason="Linux keeps to it")
def test_a_process_held_to_one_processor_has_one_worker() -> None:
    before = os.sched_getaffinity(0)
    try:
        os.sched_setaffinity(0, {min(before)})
        assert (worker_count(), thread_count()) == (1, 1)
    finally:
        os.sched_setaffinity(0, before)
