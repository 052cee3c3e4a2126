"""What one run of the page is started with."""

import secrets
from dataclasses import dataclass, field
from pathlib import Path

from fewtubes.defaults import PROOF_SECONDS

__all__ = ["HOST", "Patience", "Settings"]

HOST = "127.0.0.1"
"""The loopback address: no other machine can reach it."""


@dataclass(frozen=True)
class Patience:
    """How long the page waits for a browser, on this machine, and with how many of them."""

    head_seconds: float = 20.0
    """For the head of a request, from the connection or the answer before it [s]."""
    body_seconds: float = 60.0
    """For the body that a head announces [s]."""
    answer_seconds: float = 60.0
    """For an answer to be taken [s]."""
    connections: int = 100
    """At a time; a browser opens six. Far below the files a process may hold open (1,024)."""


@dataclass(frozen=True)
class Settings:
    """Catalogue, patience and address of one run."""

    port: int
    catalogue: Path | None = None
    """Folder of tables, to which fitted tubes are added when asked for; None for the demo's."""
    box: Path | None = None
    """File of the box at home, written when asked for; None without one."""
    prices: tuple[Path, ...] = ()
    """Folders of price lists in the place of the catalogue's prices, to choose from; the first
    counts where none is chosen."""
    flowers: Path | None = None
    """Table of the painter's own flowers beside the catalogue's; None for none."""
    data: Path | None = None
    """Folder of the painter's own in which questions are remembered, and the box at home where none
    is named; None remembers nothing."""
    cache: Path | None = None
    """Folder for mixing results; None keeps none."""
    seconds: float = PROOF_SECONDS
    """Time for the proof of a choice [s]."""
    patience: Patience = Patience()
    token: str = field(default_factory=lambda: secrets.token_urlsafe(24), repr=False)
    """Whoever knows it may use the page; a new one every run."""

    @property
    def usual_prices(self) -> Path | None:
        """The price list that counts where none is chosen; None for the catalogue's own prices."""
        return next(iter(self.prices), None)

    @property
    def address(self) -> str:
        """The address that opens the page."""
        return f"http://{HOST}:{self.port}/open/{self.token}"

    @property
    def cookie(self) -> str:
        """Name of the cookie that holds the token; browsers share cookies between ports."""
        return f"fewtubes-{self.port}"
