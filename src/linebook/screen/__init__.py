"""Paints block trees as a folder of HTML pages that needs no network, no script and no other file."""
