"""fewtubes: the few watercolour tubes that mix most of a bouquet, within a budget."""

__all__ = ["__version__"]

__version__ = "0.2.0"
