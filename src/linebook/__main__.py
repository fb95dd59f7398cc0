"""Lets ``python -m linebook`` run the command line."""

from linebook.cli.main import main

main()
