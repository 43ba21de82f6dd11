"""Finds what is in store of each material, and what to buy for the works of the year ahead.

The steps, in order:
    materials   the cards of what is bought, and how each is counted (materials.py)
    spent       what every tree took: as written, else reckoned (spent.py; soil.py, metres.py)
    shelf       bought, counted and spent, day by day, to what is on hand and its value (shelf.py)
    wanted      what the planned works of a year will take (wanted.py)
    buying      less what is on hand, with a margin, rounded up to how it is sold (buying.py)
"""

from __future__ import annotations

from backbud.plan.stores.run import stores_of
from backbud.plan.stores.values import Stores

__all__ = ["Stores", "stores_of"]
