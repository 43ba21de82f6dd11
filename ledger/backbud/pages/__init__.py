"""The collection and its plan go in; static HTML pages come out."""

from backbud.pages.render import render_pages
from backbud.views.facts import SpeciesFact, SpeciesFacts
from backbud.views.nursery import Nursery

__all__ = ["Nursery", "SpeciesFact", "SpeciesFacts", "render_pages"]
