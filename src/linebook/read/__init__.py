"""Reading: spec files become parsed records. Each field is declared once, as data, for reader, schema and reference.

It must not know whether what a record names exists, nor what follows from it: that is ``check``.
"""
