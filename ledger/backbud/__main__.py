"""`python -m backbud`: the same as the command."""

import sys

from backbud.start import main

sys.exit(main())
