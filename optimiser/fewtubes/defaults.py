"""The values taken where nobody says another: plain ones, so that the help can tell them at once.

Each stands here alone. Those of the command line, of the page and of the library are the same.
"""

__all__ = [
    "CM2_PER_ML",
    "COLOUR_CM2",
    "COLOUR_NOISE",
    "CURRENCY",
    "DRAWS",
    "FLOWER_CM2",
    "LEAST_PUDDLE_CM2",
    "LIGHT",
    "NEAR_BEST_LISTED",
    "NEAR_BEST_WITHIN",
    "PAPER",
    "PREFER",
    "PROOF_SECONDS",
    "RECIPES_SHOWN",
    "RIVALS_WITHIN",
    "SEED",
    "SWATCH_HAND",
    "TOLERANCE",
    "UP_TO_TUBES",
    "WASTE",
]

PROOF_SECONDS = 60.0
"""Patience before the search for a proof is given up [s]."""

TOLERANCE = 4.0
"""ΔE00 that a painter lets pass between a petal and its paint; see the limits in the report."""

CURRENCY = "EUR"
"""ISO 4217 code offered where nothing in a catalogue is for sale, so that it has no currency."""

PAPER = "cotton-white"
LIGHT = "D65"

PREFER = "lasting"
"""What decides between choices that cover as much with as few tubes; see `Prefer`."""

RECIPES_SHOWN = 5
"""Recipes for one colour: as many as anybody tries."""

UP_TO_TUBES = 8
"""Largest number of tubes compared; more make a palette that is no longer small."""

NEAR_BEST_LISTED = 20
"""Palettes near the best that are listed; about a screenful."""

NEAR_BEST_WITHIN = 0.02
"""Coverage that a near-best palette may lose [0–1]; seldom more than one colour."""

RIVALS_WITHIN = 0.01
"""Coverage by which others may fall short and still be tried under variation [0–1]; our choice."""

SEED = 1
"""Of random draws. Any number does; a fixed one makes every run the same."""

DRAWS = 200
"""A share is then known to 3.5 points at worst, √(0.5 · 0.5 ÷ 200), as a standard error."""

SWATCH_HAND = 0.12
"""How far a swatch strays from the strength that was meant, as the standard deviation of its
logarithm; our own assumption."""

COLOUR_NOISE = 1.5
"""How far the colour of a swatch may be off, as a standard deviation of each of L*, a*, b*; what a
careful eye or a scanner reaches, our own assumption."""

CM2_PER_ML = 200.0
"""Area that a millilitre from a tube of middling strength covers in a full-strength stroke [cm²]:
a layer of tube paint 0.05 mm thick. A half pan of 2 ml is then 400 cm²; a postcard (150 cm²), two
thirds of it painted at a third of full strength in ten colours, takes 5 of them with what dries on
the palette, so that it lasts for eighty. Common practice, no source."""

FLOWER_CM2 = 50.0
"""Painted area of a flower with its leaves [cm²]: a daffodil in life size. Our own choice."""

COLOUR_CM2 = 10.0
"""Painted area of a colour of one's own [cm²]: a spot of three by three centimetres. Likewise."""

WASTE = 0.5
"""What is mixed beyond what is painted, as a share of it. Common practice, no source."""

LEAST_PUDDLE_CM2 = 10.0
"""What the smallest puddle would paint [cm²]: a few drops, as a brush takes up. Likewise."""
