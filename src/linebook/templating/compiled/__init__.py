"""The shipped templates as the code jinja2 makes of them: written by ``python -m linebook.templating.compiling``."""
