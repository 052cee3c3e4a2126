"""What one run of the page is started with."""

import secrets
from dataclasses import dataclass, field
from pathlib import Path

__all__ = ["HOST", "Settings"]

HOST = "127.0.0.1"
"""The loopback address: no other machine can reach it."""


@dataclass(frozen=True)
class Settings:
    """Catalogue, patience and address of one run."""

    port: int
    catalogue: Path | None = None
    """Folder of tables; None stands for the demo ones."""
    cache: Path | None = None
    """Folder for mixing results; None keeps none."""
    seconds: float = 60.0
    """Time for the proof of a choice [s]."""
    token: str = field(default_factory=lambda: secrets.token_urlsafe(24), repr=False)
    """Whoever knows it may use the page; a new one every run."""

    @property
    def address(self) -> str:
        """The address that opens the page."""
        return f"http://{HOST}:{self.port}/open/{self.token}"

    @property
    def cookie(self) -> str:
        """Name of the cookie that holds the token; browsers share cookies between ports."""
        return f"fewtubes-{self.port}"
