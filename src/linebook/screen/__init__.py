"""Sheets as HTML: the same block tree, read on a phone or a tablet, with nothing fetched and no script needed."""
