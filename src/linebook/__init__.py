"""linebook: dish specs in, printed station binders out."""

__version__ = "0.1.0"
