"""The numbers that are ours and not the trade's.

Each may be set in the settings' table of figures under its name.
"""

from __future__ import annotations

from backbud.species import (
    FEED_AGAIN_UNDER,
    FEED_RESTS_OVER,
    FEED_RESTS_TENDER_OVER,
    SLOW_DRAIN_FROM,
    Figure,
)

SHELTER_BELOW = Figure(
    "shelter_below_c", 17.0, "Mean of three weeks in °C under which an azalea gains by glass."
)
WARM_SUMMER_FROM = Figure(
    "warm_summer_from_c", 19.0, "Mean of the three summer months in °C from which a place is warm."
)
DECANDLE_FROM = Figure(
    "decandle_from_c", 17.0, "Mean of the summer in °C from which a pine makes its second flush."
)
SLOWER_EACH_YEAR = Figure(
    "slower_each_year_ratio",
    1.25,
    "How many times as long water takes from year to year in tired soil.",
)
BALL_FILLS_POT = Figure(
    "ball_fills_pot_share", 0.9, "Share of the pot that a root ball takes up from which it is full."
)
SHALLOW_POT_BELOW = Figure(
    "shallow_pot_below_cm", 5.0, "Depth in cm under which a root ball fills its pot a year sooner."
)

SHADE_OVER = Figure(
    "shade_over_c", 28.0, "Mean high of the day in °C from which thin leaves stand in shade."
)
GREAT_HEAT_OVER = Figure(
    "great_heat_over_c", 35.0, "Mean high of the day in °C from which growth stands still."
)
GREAT_HEAT_TENDER_OVER = Figure(
    "great_heat_tender_over_c",
    38.0,
    "Mean high of the day in °C from which new leaves of a tree of warm countries scorch.",
)
DRY_SPELL_UNDER = Figure(
    "dry_spell_under_c", 33.0, "Mean high of the day in °C from which no tree goes thirsty."
)
SECOND_FLUSH_DAYS = Figure(
    "second_flush_days", 115.0, "Days that a pine's second flush needs before it turns cool."
)
SECOND_FLUSH_K_DAYS = Figure(
    "second_flush_k_days",
    900.0,
    "Heat over 10 °C that a pine's second flush needs, in K·day.",
)
SECOND_FLUSH_OVER = Figure(
    "second_flush_over_c", 15.0, "Mean of the day in °C under which a second flush grows no more."
)

FIGURES = (
    SHELTER_BELOW,
    WARM_SUMMER_FROM,
    DECANDLE_FROM,
    FEED_RESTS_OVER,
    FEED_RESTS_TENDER_OVER,
    FEED_AGAIN_UNDER,
    SLOW_DRAIN_FROM,
    SLOWER_EACH_YEAR,
    BALL_FILLS_POT,
    SECOND_FLUSH_DAYS,
    SECOND_FLUSH_OVER,
    SECOND_FLUSH_K_DAYS,
    SHALLOW_POT_BELOW,
    SHADE_OVER,
    GREAT_HEAT_OVER,
    GREAT_HEAT_TENDER_OVER,
    DRY_SPELL_UNDER,
)
