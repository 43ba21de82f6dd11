"""The static HTML pages: what the views hold, laid out to be read and printed."""

from backbud.pages.render import render_pages
from backbud.views.facts import SpeciesFact, SpeciesFacts
from backbud.views.nursery import Nursery

__all__ = ["Nursery", "SpeciesFact", "SpeciesFacts", "render_pages"]
