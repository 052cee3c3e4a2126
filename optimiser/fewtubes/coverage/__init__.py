"""Which sets of tubes reach which colours."""
