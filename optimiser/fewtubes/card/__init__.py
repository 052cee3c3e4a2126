"""A card to paint swatches on: drawn for the printer, and read from its photograph."""
