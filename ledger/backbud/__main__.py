"""`python -m backbud`: the same as the command."""

from backbud.start import run

run()
