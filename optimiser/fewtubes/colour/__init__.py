"""Spectra, light and colour difference."""
