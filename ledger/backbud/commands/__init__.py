"""The commands, one module each.

Each has `add_options`, which declares what may follow its word, and `run`, which does it and
returns the exit status. `backbud.cli` imports only that of the command that was asked for.
"""
