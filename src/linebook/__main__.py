"""Lets ``python -m linebook`` run the command line."""

from linebook.cli.start import main

main()
