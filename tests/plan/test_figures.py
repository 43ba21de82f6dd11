"""The numbers of ours that a keeper may set, and how long each act usually takes.

The tables were read against common practice, no source, but for `glass_water`, whose source stands
beside it in covers.py. A figure or a time that changes here changes what keepers are told to do, so
it is changed in two places, with open eyes.
"""

from __future__ import annotations

from collections import defaultdict

from backbud.plan.known_figures import known_figures
from backbud_grammar.acts import ACTS

# By name, in the units of its name.
FIGURES = """
agreed_weeks            12      ask_after_weeks          4      ball_fills_pot_share    0.9
buying_margin_percent   10      decandle_from_c         17      feed_rests_over_c      32
feed_again_under_c      28      feed_rests_tender_over_c 38
great_heat_tender_over_c 38    dry_spell_under_c       33
fine_wire_m              3      frame_high_c             3      frame_low_c             1
frame_water            0.6      glass_high_c             6      glass_light             0.7
glass_low_c            1.5      glass_water           0.64      great_heat_over_c      35
gust_over_m_s           20      guy_wire_m             0.5      heat_over_c            33
held_share            0.35      indoor_light           0.1      indoor_water            0.4
indoors_least_c         15      middle_wire_m            2      moss_layer_cm           0.5
net_water              0.7      payment_days            14      pot_margin_c            5
pot_wall_cm              1      quarantine_days          0      rim_gap_cm              1
root_ball_off         1/3       second_flush_days      115      second_flush_k_days   900
second_flush_over_c     15      settles_percent          5      shade_high_c            2
shade_over_c            28      shade_off_under_c      28
shallow_below_cm         8      shallow_pot_below_cm    5
shelter_below_c         17      slow_drain_from_s       60      slower_each_year_ratio  1.25
spread_of_height       0.8      spread_of_pot          1.2      spread_of_trunk         5
tender_in_below_c        2      thick_wire_m           1.5      tie_wire_m              0.8
tunnel_water          0.75      warm_summer_from_c      19      young_roots_c          -5
"""
# Minutes for one medium tree; what is not named takes ten.
MINUTES = {
    5: "rubbed unguyed watered fed moved unprotected checked",
    15: "guyed treated",
    20: "trimmed pinched disbudded thinned wrapped slipped grafted",
    30: "returned pruned deadheaded unwired treated-deadwood potted-on root-pruned bent layered "
    "separated",
    40: "decandled defoliated",
    45: "plucked",
    60: "repotted carved",
    120: "wired styled",
}
SHORT = 10


def test_each_figure_is_what_was_agreed_on() -> None:
    words = FIGURES.split()
    agreed = {
        name: 1 / 3 if figure == "1/3" else float(figure)
        for name, figure in zip(words[::2], words[1::2], strict=True)
    }
    assert {figure.name: figure.default for figure in known_figures()} == agreed


def test_each_act_takes_as_long_as_was_agreed_on() -> None:
    by_minutes: dict[int, set[str]] = defaultdict(set)
    for act in ACTS:
        by_minutes[act.minutes].add(act.word)
    by_minutes.pop(SHORT)
    assert by_minutes == {minutes: set(words.split()) for minutes, words in MINUTES.items()}
