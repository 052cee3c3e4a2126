"""Hue and chroma: where the flowers' colours lie and how far the palette reaches (CIELAB a*b*)."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Literal

import numpy as np

from fewtubes.catalogue.records import Role
from fewtubes.colour.bands import FloatArray
from fewtubes.colour.plain_names import HUES
from fewtubes.picture.outlines import blob, by_hand, seed_of
from fewtubes.picture.shapes import Area, Line, Picture, Shape, Words, points_of
from fewtubes.picture.sheet import MISSED, Sheet, screen_colour
from fewtubes.shopping.plan_parts import PlannedSample

__all__ = ["LETTERS", "Group", "hue_plane"]

SIDE = 480.0
ROOM = 34.0
"""Around the plane for the names of hues."""

LABEL_SIZE = 17.0
RING_SIZE = 15.0
NAME_HALF = 22.0
"""About half the width of a hue's name."""

DOT = 6.0
RING_STEP = 20
"""Between two rings of chroma [C*]."""

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

PETALS = frozenset({Role.PETAL_LIGHT, Role.PETAL, Role.PETAL_SHADE})


@dataclass(frozen=True)
class Group:
    """The samples of one flower and the letter it goes by; none beyond the alphabet."""

    letter: str
    samples: tuple[PlannedSample, ...]


def hue_plane(groups: Sequence[Group], strongest: FloatArray, sheet: Sheet) -> Picture:
    """Return the plane.

    Parameters
    ----------
    groups
        The flowers.
    strongest
        CIELAB of the palette's strongest colour at each step of hue, shape (hues, 3); see
        `fewtubes.picture.strongest`.
    """
    labs = [planned.sample.lab for group in groups for planned in group.samples]
    chroma = np.hypot(*np.array([*labs, *strongest[:, :].tolist()])[:, 1:].T)
    widest = RING_STEP * int(np.ceil(max(40.0, float(np.nanmax(chroma)) + 2) / RING_STEP))
    plane = _Plane(sheet, (SIDE / 2 - ROOM) / widest, widest)
    missed = sum(not planned.covered for group in groups for planned in group.samples)
    return Picture(
        width=SIDE,
        height=SIDE,
        ground=sheet.ground,
        title="Hue and chroma",
        description=f"The a*b* plane of CIELAB: {len(labs)} colours of the flowers as dots,"
        f" {missed} of them out of reach, over the outline of the strongest colours that the"
        " palette mixes.",
        shapes=(*plane.rings(), *plane.reach(strongest), *plane.flowers(groups, strongest)),
    )


@dataclass(frozen=True)
class _Plane:
    """The sheet with its scale [picture units per unit of a* and b*]."""

    sheet: Sheet
    scale: float
    widest: int

    def place(self, a: float, b: float) -> tuple[float, float]:
        """Return where a* and b* lie; b* points up."""
        return (SIDE / 2 + self.scale * a, SIDE / 2 - self.scale * b)

    def rings(self) -> Iterator[Shape]:
        """Yield rings of equal chroma with their values, and the names of hues around."""
        soft = self.sheet.soft_ink
        for chroma in range(RING_STEP, self.widest + 1, RING_STEP):
            ring = blob(SIDE / 2, SIDE / 2, self.scale * chroma)
            yield Line(points_of(np.concatenate([ring, ring[:1]])), soft, 0.5, dashed=True)
        for degrees, name in HUES:
            x, y = self.name_place(degrees)
            yield Words(x, y + 5, name, soft, LABEL_SIZE, _anchor(degrees))

    def name_place(self, degrees: float) -> tuple[float, float]:
        """Return where the name of a hue stands."""
        return self.polar(self.widest + 13 / self.scale, float(np.radians(degrees)))

    def ring_labels(self, taken: Sequence[tuple[float, float]]) -> Iterator[Words]:
        """Yield the chroma of each ring, along the ray with most room."""
        rings = range(RING_STEP, self.widest, RING_STEP)
        rays = np.radians(np.arange(0, 360, 5))
        others = np.array(taken)
        room = [
            min(
                float(np.hypot(*(others - np.array(self.polar(chroma, ray))).T).min())
                for chroma in rings
            )
            for ray in rays.tolist()
        ]
        ray = float(rays[int(np.argmax(room))])
        for chroma in rings:
            x, y = self.polar(chroma, ray)
            soft, ground = self.sheet.soft_ink, self.sheet.ground
            yield Words(x, y + 5, f"{chroma}", soft, RING_SIZE, "middle", halo=ground)

    def polar(self, chroma: float, turn: float) -> tuple[float, float]:
        """Return where a chroma lies at a hue angle [radians]."""
        return self.place(chroma * float(np.cos(turn)), chroma * float(np.sin(turn)))

    def reach(self, strongest: FloatArray) -> Iterator[Shape]:
        """Yield the outline of the palette's reach with a dab of each strongest colour."""
        known = ~np.isnan(strongest[:, 0])
        if known.any():
            corners = np.where(known[:, None], strongest, 0.0)[:, 1:]
            places = np.array([self.place(a, b) for a, b in corners.tolist()])
            yield Area(points_of(places), _between(self.sheet.ground, self.sheet.ink, 0.05))
        for step in np.flatnonzero(known).tolist():
            x, y = self.place(*strongest[step, 1:].tolist())
            edge = by_hand(blob(x, y, 7.5), amount=0.8, seed=seed_of("reach", step))
            yield Area(points_of(edge), screen_colour(strongest[step]).hex)

    def flowers(self, groups: Sequence[Group], strongest: FloatArray) -> Iterator[Shape]:
        """Yield petals joined by lines, all colours as dots, then signs and letters."""
        for group in groups:
            yield from self.petal_line(group)
        for group in groups:
            for planned in group.samples:
                x, y = self.place(*planned.sample.lab[1:])
                fill = screen_colour(planned.sample.lab).hex
                yield Area(points_of(blob(x, y, DOT)), fill, rim=self.sheet.ink, rim_width=1.3)
        known = strongest[~np.isnan(strongest[:, 0])]
        yield from self.labels(groups, [self.place(a, b) for _, a, b in known.tolist()])

    def petal_line(self, group: Group) -> Iterator[Line]:
        """Yield a line between every two petal colours that have a step midway between them."""
        samples = [planned.sample for planned in group.samples]
        petals = [np.array(sample.lab) for sample in samples if sample.role in PETALS]
        steps = [np.array(sample.lab) for sample in samples if sample.is_step]
        for one, other in combinations(petals, 2):
            if any(np.allclose((one + other) / 2, step, atol=1e-6) for step in steps):
                ends = (self.place(*one[1:].tolist()), self.place(*other[1:].tolist()))
                yield Line(ends, self.sheet.ink, 1.1)

    def labels(
        self, groups: Sequence[Group], dabs: Sequence[tuple[float, float]]
    ) -> Iterator[Words]:
        """Yield a letter at each flower's strongest colour and a sign at each missed one."""
        dots = [self.place(*planned.sample.lab[1:]) for g in groups for planned in g.samples]
        names = [
            (x + aside, y)
            for x, y in (self.name_place(degrees) for degrees, _ in HUES)
            for aside in (-NAME_HALF, 0.0, NAME_HALF)
        ]
        taken = [*dots, *dabs, *names]
        for group in groups:
            strongest = max(group.samples, key=lambda item: np.hypot(*item.sample.lab[1:]))
            for planned in group.samples:
                letter = group.letter if planned is strongest else ""
                text = f"{letter}{'' if planned.covered else MISSED}"
                if text:
                    x, y = _free_place(self.place(*planned.sample.lab[1:]), taken)
                    taken.append((x, y))
                    ink, ground = self.sheet.ink, self.sheet.ground
                    yield Words(x, y + 6, text, ink, LABEL_SIZE, "middle", bold=True, halo=ground)
        yield from self.ring_labels(taken)


def _anchor(degrees: float) -> Literal["start", "middle", "end"]:
    """Return how a name around the plane is set so that it stays inside the picture."""
    aside = np.cos(np.radians(degrees))
    if abs(aside) < 0.5:
        return "middle"
    return "end" if aside > 0.95 else "start" if aside < -0.95 else "middle"


def _free_place(
    dot: tuple[float, float], taken: Sequence[tuple[float, float]]
) -> tuple[float, float]:
    """Return the place around a dot that is farthest from everything taken."""
    turns = np.linspace(0, 2 * np.pi, 12, endpoint=False)
    around = [(dot[0] + 19 * float(np.cos(t)), dot[1] - 17 * float(np.sin(t))) for t in turns]
    others = np.array(taken)
    room = [float(np.hypot(*(others - place).T).min()) for place in around]
    return around[int(np.argmax(room))]


def _between(one: str, other: str, share: float) -> str:
    """Return the colour at a share [0–1] of the way from one to the other, in sRGB."""
    mixed = (
        round((1 - share) * int(one[k : k + 2], 16) + share * int(other[k : k + 2], 16))
        for k in (1, 3, 5)
    )
    return "#" + "".join(f"{channel:02x}" for channel in mixed)
