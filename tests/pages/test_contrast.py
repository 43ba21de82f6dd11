"""Every colour of text against every colour that may lie under it, in both schemes.

Relative luminance and contrast ratio: WCAG 2.2, "relative luminance" and "contrast ratio";
4.5:1 for text (1.4.3), 3:1 for what is drawn (1.4.11).
"""

from __future__ import annotations

import re
from itertools import product

import pytest

from backbud.pages.templating import TEMPLATES

TEXT = ("ink", "soft", "leaf", "rust")
UNDER = ("paper", "wash")
# What carries meaning without words: leaves, edges of cautions, the ring of the focus.
DRAWN = ("ink", "leaf", "rust", "soft", "wood")

CSS = re.sub(r"/\*.*?\*/", "", (TEMPLATES / "backbud.css").read_text(encoding="utf-8"), flags=re.S)


def luminance(colour: str) -> float:
    """Relative luminance of `#rrggbb`, 0 to 1."""
    channels = (int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5))
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
                        for c in channels)  # fmt: skip
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


def schemes() -> dict[str, dict[str, str]]:
    """The named colours of each scheme, as the stylesheet gives them."""
    light, dark = re.findall(r":root\s*{([^}]*--paper[^}]*)}", CSS)
    return {
        name: dict(re.findall(r"--([a-z]+):\s*(#[0-9a-f]{6});", block))
        for name, block in (("light", light), ("dark", dark))
    }


def test_the_formula() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    # The lightest grey that passes on white, and the first that fails; worked out from the formula.
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_only_named_colours_are_used() -> None:
    used = re.findall(r"(?<![-\w])(color|background|border[-a-z]*|outline):\s*([^;}]+)", CSS)
    kinds = {"text": set[str](), "under": set[str]()}
    for name, value in used:
        assert not re.search(r"#|rgb|hsl|color\(", value), value
        if name in ("color", "background"):
            kinds["text" if name == "color" else "under"] |= set(re.findall(r"--([a-z]+)", value))
    assert kinds["text"] == set(TEXT)
    # Leaf and ink lie under no text: they fill the leaves, and wood hatches the keys of drawings.
    assert kinds["under"] == {*UNDER, "leaf", "ink", "wood"}
    filled = re.findall(r"([^{}]+){[^{}]*background: [^;]*var\(--(?:leaf|ink|wood)\)", CSS)
    assert all(re.search(r"::(before|after)|\.keys", selector) for selector in filled)


def test_both_schemes_name_the_same_colours() -> None:
    both = schemes()
    assert set(both["light"]) == set(both["dark"]) == {*TEXT, *UNDER, "feint", "wood"}


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("text", "under"), list(product(TEXT, UNDER)))
def test_text_can_be_read(scheme: str, text: str, under: str) -> None:
    colours = schemes()[scheme]
    assert contrast(colours[text], colours[under]) >= 4.5


@pytest.mark.parametrize("text", TEXT)
def test_ink_can_be_read_on_white_paper(text: str) -> None:
    assert contrast(schemes()["light"][text], "#ffffff") >= 4.5


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize(("drawn", "under"), list(product(DRAWN, UNDER)))
def test_what_is_drawn_can_be_seen(scheme: str, drawn: str, under: str) -> None:
    colours = schemes()[scheme]
    assert contrast(colours[drawn], colours[under]) >= 3
