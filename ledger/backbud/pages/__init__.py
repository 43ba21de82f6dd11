"""The collection and its plan go in; static HTML pages come out."""

from backbud.pages.render import render_pages
from backbud.pages.view import Nursery, SpeciesFact, SpeciesFacts

__all__ = ["Nursery", "SpeciesFact", "SpeciesFacts", "render_pages"]
