"""See the module docstrings of this part."""
