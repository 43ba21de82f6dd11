"""The rules that hold for every tree, whatever its species; one file each, listed here."""

from __future__ import annotations

from types import ModuleType

from backbud.plan.common import (
    arrival,
    cutting_roots,
    drainage,
    feed_again,
    feed_rests,
    frost_ahead,
    graft_takes,
    guy_check,
    heat_ahead,
    layer_roots,
    long_rain,
    loose_wire,
    new_leaves,
    not_yet,
    out_of_its_time,
    pests_gone,
    quarantine_ends,
    root_rest,
    strength_check,
    tender,
    ties_out,
    under_cover,
    weather_cover_off,
    wind_ahead,
    winter_frost,
    winter_quarters,
    wire_check,
    wire_off,
    wrap_off,
)

RULES: tuple[ModuleType, ...] = (
    arrival,
    not_yet,
    cutting_roots,
    drainage,
    feed_again,
    feed_rests,
    frost_ahead,
    graft_takes,
    guy_check,
    heat_ahead,
    layer_roots,
    long_rain,
    loose_wire,
    new_leaves,
    out_of_its_time,
    pests_gone,
    quarantine_ends,
    root_rest,
    strength_check,
    tender,
    ties_out,
    under_cover,
    weather_cover_off,
    wind_ahead,
    winter_frost,
    winter_quarters,
    wire_check,
    wire_off,
    wrap_off,
)

# These speak only where the species has no rule of its own after the same act.
UNLESS_SPECIES_SPEAKS: tuple[ModuleType, ...] = (drainage, new_leaves)
