"""`python -m backbud`: the same as the command.

Python has put the current folder before all others by now; a package `backbud` in it, or one of the
few modules that Python needs to come here, has run already. The command itself has no such gap.
"""

from backbud.import_path import leave_current_folder

leave_current_folder()

from backbud.start import run  # noqa: E402

run()
