"""From painted swatches to paints: absorption and scattering that fit what was seen, how sure."""
