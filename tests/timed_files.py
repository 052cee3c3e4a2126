"""Files of results without the seconds that a proof took, which no two runs share."""

import re

__all__ = ["without_seconds"]

SECONDS = re.compile(rb'("seconds": )[0-9.]+')


def without_seconds(content: bytes) -> bytes:
    """Return the content of `plan.json`, or of any other file, with every such figure taken out."""
    return SECONDS.sub(rb"\1-", content)
