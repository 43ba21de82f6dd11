"""The rules that hold for every tree, whatever its species; one file each, listed here."""

from __future__ import annotations

from types import ModuleType

from backbud.plan.common import (
    feed_rests,
    graft_takes,
    guy_check,
    layer_roots,
    pests_gone,
    quarantine_ends,
    root_rest,
    strength_check,
    ties_out,
    weather_cover_off,
    wire_check,
    wire_off,
    wrap_off,
)

RULES: tuple[ModuleType, ...] = (
    feed_rests,
    graft_takes,
    guy_check,
    layer_roots,
    pests_gone,
    quarantine_ends,
    root_rest,
    strength_check,
    ties_out,
    weather_cover_off,
    wire_check,
    wire_off,
    wrap_off,
)
