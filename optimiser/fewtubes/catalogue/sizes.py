"""How large the tables and scenarios may be.

Each limit is far beyond what a painter or a shop has, and low enough that the largest file allowed
is read, or all its faults told, within a few seconds. They are told in `catalogue/README.md` and
in the README.
"""

__all__ = [
    "DEEPEST_KEY",
    "LARGEST_LIKELY_TABLE",
    "LARGEST_MEASUREMENT",
    "LARGEST_SCENARIO",
    "LARGEST_SHEET",
    "LARGEST_TABLE",
    "LARGEST_UNPACKED",
    "LONGEST_NAME",
    "LONGEST_NOTE",
    "MOST_COLUMNS",
    "MOST_DRAWS",
    "MOST_LIKELY_ROWS",
    "MOST_MEASURED",
    "MOST_MEASURED_SWATCHES",
    "MOST_OWN_COLOURS",
    "MOST_ROWS",
    "MOST_SWATCHES",
    "MOST_WISHED",
]

LONGEST_NAME = 200
"""Characters in a name; longer ones break every report."""

LONGEST_NOTE = 1000
"""Characters in a note; a paragraph."""

LARGEST_TABLE = 5_000_000
"""Bytes in a table; `MOST_ROWS` spectra of 36 bands, each in a dozen characters."""

MOST_ROWS = 10_000
"""Rows in a table; a shop of twenty makers has a fifth as many tubes."""

MOST_DRAWS = 200
"""Likely spectra of a pigment; ten times as many as are needed to tell how sure it is."""

MOST_LIKELY_ROWS = 20_000
"""Rows of likely spectra; 200 tubes, each fitted with 50 draws of K and S."""

LARGEST_LIKELY_TABLE = 10_000_000
"""Bytes in a table of likely spectra; `MOST_LIKELY_ROWS`, each value in a dozen characters."""

MOST_COLUMNS = 100
"""Columns in a table; a spectrum has 36 bands and a few words."""

LARGEST_SHEET = 10_000_000
"""Bytes in a spreadsheet that is brought in; a price list of 10,000 rows has a tenth of it."""

LARGEST_UNPACKED = 100_000_000
"""Bytes in a workbook once it is unpacked; its cells take about ten times what they do packed."""

LARGEST_SCENARIO = 500_000
"""Bytes in a scenario's file; twice what all lists at their longest take."""

MOST_WISHED = 1_000
"""Flowers of a scenario, or entries of one of its lists; nobody paints as many at a time."""

MOST_OWN_COLOURS = 100
"""Colours of one's own in a scenario; more are a catalogue, and each may name a file."""

MOST_SWATCHES = 100
"""Colours of a flower of one's own; the demo's have at most a dozen."""

MOST_MEASURED_SWATCHES = 100
"""Colours of flowers of one's own that name a file of measurements, in one scenario."""

DEEPEST_KEY = 8
"""Parts of a key of a scenario, as in ``wishes.millilitres``; two would do."""

LARGEST_MEASUREMENT = 200_000
"""Bytes in a file of measured reflectance."""

MOST_MEASURED = 2_500
"""Rows in a file of measured reflectance; 200 to 2,500 nm by steps of 1 nm are 2,301."""
