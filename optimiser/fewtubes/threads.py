"""Small matrix products run faster on one thread than on several that wait for each other."""

from contextlib import AbstractContextManager
from typing import Any

__all__ = ["one_thread_per_product"]


def one_thread_per_product() -> AbstractContextManager[Any]:
    """Return a context in which numpy's matrix products use one thread each."""
    from threadpoolctl import threadpool_limits

    limits: AbstractContextManager[Any] = threadpool_limits(limits=1, user_api="blas")
    return limits
