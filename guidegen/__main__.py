"""python -m guidegen is the guidegen command."""

from guidegen.cli import run

run()
