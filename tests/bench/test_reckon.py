"""`backbud reckon` as it is run, against sums worked by hand, published examples and `pint`."""

from __future__ import annotations

import json
import math
import re
import subprocess
import sys
from pathlib import Path

import pint
import pytest

from backbud.cli import main

UNITS = pint.get_application_registry()
MIX = "akadama 2, pumice 1, lava 1"


@pytest.fixture
def run(capsys, monkeypatch, tmp_path):
    """Run the command where there is no journal; its lines, which must come without complaint."""
    monkeypatch.chdir(tmp_path)

    def lines(*words: str) -> list[str]:
        status = main(["reckon", *words])
        out, err = capsys.readouterr()
        assert (status, err) == (0, "")
        return out.splitlines()

    return lines


@pytest.fixture
def figures(run):
    """Run the command with `--json`; what it printed."""
    return lambda *words: json.loads("\n".join(run(*words, "--json")))


@pytest.fixture
def refused(capsys):
    """Run the command that must be refused; its one sentence."""

    def sentence(*words: str) -> str:
        try:
            status = main(["reckon", *words])
        except SystemExit as leaving:  # argparse leaves by itself
            status = leaving.code
        out, err = capsys.readouterr()
        assert (status, out) == (2, "")
        assert err.count("\n") == 1 and err.startswith("backbud: ")
        says = err.removeprefix("backbud: ").strip()
        assert re.fullmatch(r"[A-Z-].*\.", says)
        assert not re.search(r"\. [A-Z]", says)
        return says

    return sentence


def approx(value: float):
    return pytest.approx(value, rel=1e-5)


# ------------------------------------------------------------------ pot


def test_pot_in_lines(run):
    assert run(
        "pot", "--shape", "oval", "--inside", "36 x 28 x 12 cm", "--root-ball", "30 x 22 x 8 cm",
        "--settles", "10 %", "--mix", MIX,
    ) == [
        "volume         9.50 L   oval 36 × 28 × 12 cm inside; geometry (prismoidal formula)",
        "soil surface   792 cm²  geometry of the outline",
        "mix, loose     5.95 L   fills 5.35 L of room beside 4.15 L of root ball (oval); "
        "settles by 10 % (as given)",
        "weight dry     6.06 kg  mix, no pot (--wall or --pot-weighs), no tree (--trunk, --height);"
        " the root ball counts as mix",
        "weight soaked  9.41 kg  with 3.35 L of water, once drained",
        "weights from            from memory, a round figure; "
        "a weighed litre of your own is better",
    ]  # fmt: skip


def test_pot_for_a_program(figures):
    found = figures(
        "pot", "--shape", "oval", "--inside", "36 x 28 x 12 cm", "--root-ball", "30 x 22 x 8 cm",
        "--settles", "10 %", "--mix", MIX,
    )  # fmt: skip
    assert list(found) == [
        "shape", "length_cm", "width_cm", "depth_cm", "volume_litres", "soil_surface_cm2",
        "root_ball_litres", "room_litres", "settles_percent", "mix_loose_litres",
        "dry_kg", "mix_dry_kg", "pot_kg", "tree_kg", "soaked_kg", "water_held_litres",
        "rules", "cautions",
    ]  # fmt: skip
    # pi / 4 x 36 x 28 = 791.681 cm², x 12 = 9500.18 cm³; the ball pi / 4 x 30 x 22 x 8 = 4146.90.
    assert found["soil_surface_cm2"] == approx(791.681)
    assert found["volume_litres"] == approx(9.50018)
    assert found["root_ball_litres"] == approx(4.14690)
    # (9.50018 - 4.14690) / 0.9.
    assert found["mix_loose_litres"] == approx(5.94808)
    # A litre: dry (2 x 0.60 + 0.50 + 0.85) / 4 = 0.6375, wet (2 x 1.02 + 0.85 + 1.07) / 4 = 0.99.
    assert found["dry_kg"] == approx(9.50018 * 0.6375)
    assert found["soaked_kg"] == approx(9.50018 * 0.99)
    assert found["cautions"] == []


def test_an_empty_pot_settles_by_common_practice(run):
    # 7.182 L / 0.95 = 7.56 L.
    assert run("pot", "--inside", "38 x 27 x 7 cm")[2] == (
        "mix, loose    7.56 L    fills the empty pot; settles by 5 % (common practice, no source)"
    )


def test_pot_in_inches(figures):
    litres = UNITS.Quantity(14 * 11 * 5, "inch**3").to("litre").magnitude
    assert figures("pot", "--inside", "14 x 11 x 5 inch")["volume_litres"] == approx(litres)


def test_round_pot_by_two_sizes_with_a_comma_and_a_gap(figures):
    # pi / 4 x 25.5² x (12 - 1.5) = 5362.41 cm³.
    found = figures("pot", "--inside", "25,5 x 12 cm", "--rim-gap", "15 mm")
    assert (found["shape"], found["volume_litres"]) == ("round", approx(5.36241))


@pytest.mark.parametrize("taper", ["2 cm", "5 %"])
def test_taper_is_how_much_narrower_the_floor_is(figures, taper):
    # 5 % of 40 cm is 2 cm, 1 cm each wall: 7 / 6 x (48 x 38 + 4 x 49 x 39 + 50 x 40) cm³.
    found = figures("pot", "--inside", "50 x 40 x 7 cm", "--taper", taper)
    assert found["volume_litres"] == approx(7 / 6 * (48 * 38 + 4 * 49 * 39 + 50 * 40) / 1000)


def test_outside_sizes_lose_wall_floor_and_feet(figures):
    # 40 x 30 x 10 less walls of 1, a floor of 1 and feet of 1: 38 x 28 x 8 = 8512 cm³; its clay
    # 40 x 30 x 9 - 8512 = 2288 cm³ of stoneware, 2.3 kg a litre.
    found = figures(
        "pot", "--outside", "40 x 30 x 10 cm", "--wall", "1 cm", "--feet", "10 mm",
        "--mix", "lava 1",
    )  # fmt: skip
    assert found["volume_litres"] == approx(8.512)
    assert found["pot_kg"] == approx(2.288 * 2.3)
    assert found["soaked_kg"] == approx(8.512 * 1.07 + 2.288 * 2.3)


def test_pot_weighed_and_trunk_reckoned(figures):
    # A trunk of 9 x 60 cm: pi x 81 x 60 / 12 = 1272.35 cm³; the pot 9 lb.
    found = figures(
        "pot", "--inside", "30 x 20 x 10 cm", "--mix", "pumice 1", "--pot-weighs", "9 lb",
        "--trunk", "9 cm", "--height", "60 cm",
    )  # fmt: skip
    pot_kg = UNITS.Quantity(9, "lb").to("kg").magnitude
    assert found["pot_kg"] == approx(pot_kg)
    assert found["dry_kg"] == approx(6 * 0.50 + pot_kg + 1.27235)


def test_own_weight_of_an_ingredient(figures):
    # Half lava (0.85, 1.07), half brick (0.9, 1.2): 0.875 and 1.135 kg a litre.
    found = figures(
        "pot", "--inside", "20 x 10 x 5 cm", "--mix", "lava 1, crushed brick 1",
        "--density", "brick 0.9-1.2 kg/L",
    )  # fmt: skip
    assert (found["dry_kg"], found["soaked_kg"]) == (approx(0.875), approx(1.135))


def test_lifting_cautions(run):
    # 27 L and 48 L of 0.99 kg.
    light = run("pot", "--inside", "30 x 30 x 30 cm", "--mix", MIX)
    assert light[-1].startswith("! About 27 kg, above the 25 kg guideline for one person")
    assert "lift with two people" in light[-1]
    heavy = run("pot", "--inside", "60 x 40 x 20 cm", "--mix", MIX)
    assert "use a trolley or a hoist" in heavy[-1]
    weaker = run(
        "pot", "--inside", "30 x 30 x 20 cm", "--mix", MIX, "--one-person", "16 kg"
    )  # fmt: skip
    assert weaker[-1].startswith("! About 18 kg, above the 16 kg guideline")
    assert not run("pot", "--inside", "30 x 30 x 20 cm", "--mix", MIX)[-1].startswith("!")


# ------------------------------------------------------------------ mix


def test_mix_in_lines(run):
    assert run(
        "mix", "--mix", MIX, "--litres", "20", "--bag", "14", "--sieving", "10 %"
    ) == [
        "mix, loose  20.0 L  measured out loose, by parts of volume",
        "akadama     10.0 L  11.1 L before sieving off 10 % (as given); 1 bag of 14 L, 2.89 L over",
        "pumice      5.00 L  5.56 L before sieving off 10 % (as given); 1 bag of 14 L, 8.44 L over",
        "lava        5.00 L  5.56 L before sieving off 10 % (as given); 1 bag of 14 L, 8.44 L over",
    ]  # fmt: skip


def test_mix_for_a_program_in_gallons_with_bags_by_name(figures):
    found = figures(
        "mix", "--mix", "akadama 50 %, pumice 3-6 mm 50 %", "--litres", "10 US gal",
        "--bag", "14 L, pumice 25 L", "--sieving", "akadama 20 %", "--settles", "10 %",
    )  # fmt: skip
    loose = UNITS.Quantity(10, "US_liquid_gallon").to("litre").magnitude / 0.9
    assert found["mix_loose_litres"] == approx(loose)
    akadama, pumice = found["ingredients"]
    # 21.03 L each; akadama 26.29 L from bags of 14, pumice loses the usual 10 %, 23.37 L from one
    # of 25.
    assert akadama == {
        "ingredient": "akadama",
        "litres": approx(loose / 2),
        "before_sieving_litres": approx(loose / 2 / 0.8),
        "bag_litres": 14,
        "bags": 2,
        "left_over_litres": approx(28 - loose / 2 / 0.8),
    }
    assert (pumice["ingredient"], pumice["bag_litres"], pumice["bags"]) == ("pumice 3-6 mm", 25, 1)
    assert pumice["before_sieving_litres"] == approx(loose / 2 / 0.9)


def test_mix_without_bags_says_usual_losses(run):
    assert run("mix", "--mix", "kanuma 3, grit 1/2", "--litres", "7 L")[1:] == [
        "kanuma      6.00 L  7.06 L before sieving off 15 % (a usual loss, from memory)",
        "grit        1.00 L  not sieved",
    ]


# ------------------------------------------------------------------ wire


def test_wire_in_lines(run):
    assert run(
        "wire", "--branch", "9 mm", "--metal", "Al", "--length", "40 cm",
        "--pot", "36 x 28 x 12 cm", "--shape", "oval", "--holes", "2",
    ) == [
        "wire     3 mm aluminium        1/3 of a branch of 9 mm asks for 3.0 mm; "
        "common practice, no source",
        "length   0.62 m                1 strand of 0.57 m coil (geometry) and 0.06 m anchorage; "
        "branch and a third: 0.53 m (common practice, no source)",
        "mass     11.9 g                2.70 g/cm³ (CRC Handbook of Chemistry and Physics)",
        "anchors  2 × 2.5 mm aluminium  70.0 cm each for oval 36 × 28 × 12 cm inside; "
        "common practice, no source",
        "mesh     2 of 4 × 4 cm         and 0.16 m of 1.5 mm wire for the staples; "
        "common practice, no source",
    ]  # fmt: skip


def test_wire_for_a_program(figures):
    found = figures(
        "wire", "--branch", "3/8 inch", "--metal", "Cu", "--length", "16 inch", "--roll", "1 lb",
        "--anchored-on", "3 cm",
    )  # fmt: skip
    # A fifth of 9.525 mm is 1.905 mm: sold as 2 mm. At 45° the coil is the branch x 2^0.5, and one
    # and a half turns round 30 mm are 1.5 pi x 32 mm.
    metres = (406.4 * math.sqrt(2) + 1.5 * math.pi * 32) / 1000
    grams_a_metre = (
        (math.pi / 4 * UNITS.Quantity(2, "mm") ** 2 * UNITS.Quantity(8.96, "g/cm**3"))
        .to("g/m")
        .magnitude
    )
    assert found["branch_mm"] == approx(9.525)
    assert (found["metal"], found["wire_mm"], found["strands"]) == ("annealed copper", 2.0, 1)
    assert found["length_m"] == approx(metres)
    assert found["coil_by_trade_m"] == approx(0.4064 * 4 / 3)
    assert found["mass_g"] == approx(metres * grams_a_metre)
    assert found["roll_m"] == approx(453.59237 / grams_a_metre)


def test_two_strands_and_a_branch_too_thick(run):
    # 21 mm asks for 7 mm; two of 6 mm are as stiff as one of 7.56.
    assert run("wire", "--branch", "21 mm")[0].startswith("wire  2 × 6 mm aluminium")
    assert run("wire", "--branch", "40 mm")[-1] == (
        "! Two of the thickest wires hold no branch so thick: guy it, or bend it in steps."
    )


def test_anchors_alone_with_one_hole(figures):
    # pi / 4 x 20² x 8 = 2.51 L: two wires of 2 mm, 20 + 16 + 10 cm each.
    found = figures("wire", "--pot", "20 x 8 cm", "--holes", "1")
    assert (found["anchor_wires"], found["anchor_mm"], found["anchor_each_cm"]) == (2, 2.0, 46.0)
    assert (found["anchor_total_m"], found["anchor_needs_bar"]) == (approx(0.92), True)


# ------------------------------------------------------------------ feed


def test_feed_in_lines(run):
    # 20 % N at 0.5 g/L is 100 ppm, as extension tables have it; 2 P / P2O5 = 0.436.
    assert run(
        "feed", "--label", "20-10-20", "--dilution", "0.5 g/L", "--each", "1 L", "--times", "12"
    ) == [
        "dilution  0.50 g/L  as given",
        "N         100 ppm   percent × 10 × g/L, since 1 ppm is 1 mg/L "
        "(so the University of Massachusetts Extension, 2011)",
        "P         21.8 ppm  the element, 0.436 of 50.0 ppm P2O5 (IUPAC atomic masses)",
        "K         83.0 ppm  the element, 0.830 of 100 ppm K2O (IUPAC atomic masses)",
        "season N  1.20 g    12 × 1 L to one pot; what runs through is counted too",
        "season P  0.26 g    the element, 0.436 of 0.60 g P2O5 (IUPAC atomic masses)",
        "season K  1.00 g    the element, 0.830 of 1.20 g K2O (IUPAC atomic masses)",
    ]  # fmt: skip


def test_feed_back_from_ppm_for_a_liquid(figures):
    # 100 ppm of N at 5 % are 2 g/L; at 1.25 kg/L 1.6 mL/L, 1 part in 625.
    found = figures(
        "feed", "--label", "5-3-8", "--form", "liquid", "--density", "1.25 kg/L",
        "--wanted", "100 ppm",
    )  # fmt: skip
    assert found["wanted_n_ppm"] == 100
    assert found["feed_g_per_litre"] == approx(2.0)
    assert found["feed_ml_per_litre"] == approx(1.6)
    assert found["one_part_in"] == approx(625)
    assert (found["n_ppm"], found["p2o5_ppm"], found["k2o_ppm"]) == (
        approx(100), approx(60), approx(160),
    )  # fmt: skip
    assert (found["p_ppm"], found["k_ppm"]) == (approx(26.16), approx(132.8))


@pytest.mark.parametrize("dilution", ["1:500", "2 mL/L"])
def test_feed_by_volume(figures, dilution):
    # 2 mL of 1.2 kg/L are 2.4 g: at 5 %, 120 ppm.
    found = figures("feed", "--label", "5-0-0", "--density", "1.2 kg/L", "--dilution", dilution)
    assert found["n_ppm"] == approx(120)


def test_feed_in_ounces_and_gallons(figures):
    g_per_litre = UNITS.Quantity(1, "oz/US_liquid_gallon").to("g/litre").magnitude
    found = figures("feed", "--label", "20-20-20", "--dilution", "1 oz/US gal")
    assert found["n_ppm"] == approx(200 * g_per_litre)


def test_water_in_gallons_is_shown_as_a_person_writes_litres(run):
    litres = UNITS.Quantity(1, "US_liquid_gallon").to("litre").magnitude
    lines = run(
        "feed", "--label", "20-10-20", "--dilution", "0.5 g/L", "--each", "1 US gal",
        "--times", "12",
    )  # fmt: skip
    # 12 x 3.785 L x 0.5 g/L x 20 %.
    assert lines[4].startswith(f"season N  {12 * litres * 0.5 * 0.2:.2f} g    12 × 3.79 L to one")


def test_label_in_elements(figures):
    # 10 % P as the element at 1 g/L is 100 ppm of P, 229.4 of P2O5.
    found = figures(
        "feed", "--label", "0-10-0", "--label-gives", "elements", "--dilution", "1 g/L"
    )  # fmt: skip
    assert (found["p_ppm"], found["p2o5_ppm"]) == (approx(100), approx(229.358))


def test_a_cake_is_weighed(figures):
    found = figures("feed", "--label", "4-6-2", "--form", "cake", "--weight", "20 g")
    assert {k: v for k, v in found.items() if k not in ("rules", "cautions")} == {
        "n_g": approx(0.8), "p_g": approx(0.5232), "p2o5_g": approx(1.2),
        "k_g": approx(0.332), "k2o_g": approx(0.4),
    }  # fmt: skip


def test_a_cake_has_no_ppm(refused):
    for more in ([], ["--dilution", "1 g/L"], ["--wanted", "100 ppm"]):
        assert refused("feed", "--label", "4-6-2", "--form", "cake", *more) == (
            "A solid cake is not diluted but gives itself off over weeks of watering, so it has no "
            "ppm: weigh it and go by the grams (give --weight alone, a mass such as 20 g)."
        )


# ------------------------------------------------------------------ roots


def test_roots_in_lines(run):
    assert run("roots", "--ball", "34 x 24 x 6 cm", "--below", "2 cm", "--wedges", "N E S") == [
        "root ball    4.90 L  rectangle 34 × 24 × 6 cm; geometry, straight sides",
        "taken off    53 %    share of the ball's volume, never of its roots: nobody has counted "
        "those; each wedge opened to the trunk (--inwards 1/2: half-way)",
        "half-way in  52 %    as a journal's follow-ups reckon it: wedges opened half-way, each "
        "alike; ours, no source",
        "left         2.31 L  34 × 24 × 4 cm, 3 of 8 wedges out of it: N E S "
        "(by angle, the front on a long side)",
    ]


def test_roots_say_how_far_in_a_wedge_was_opened(run, figures):
    words = ("roots", "--ball", "24 x 8 cm", "--wedges", "N E S", "--inwards", "50 %")
    assert run(*words)[1].endswith("; each wedge opened 50 % of the way to the trunk")
    # A round ball: 0.75 x 3 / 8, whichever way the wedges are counted.
    found = figures(*words)
    assert found["share_of_volume_percent"] == approx(28.125)
    assert found["share_of_volume_half_way_percent"] == approx(28.125)
    assert "half-way in" not in "\n".join(run("roots", "--ball", "24 x 8 cm", "--below", "2 cm"))


def test_roots_for_a_program(figures):
    found = figures("roots", "--ball", "34 x 24 x 6 cm", "--below", "2 cm", "--wedges", "N E S")
    # Wedges of 45°, tan 22.5° = 0.414214: N and S 12² x 0.414214 = 59.6468 cm² each, E 17² x
    # 0.414214 = 119.708, of 816. Left: 4 / 6 x (1 - 239.001 / 816) = 0.471404.
    assert found["share_of_volume_percent"] == approx(52.8596)
    assert found["left_litres"] == approx(4.896 * 0.471404)
    assert found["taken_off_litres"] == approx(4.896 * 0.528596)
    # 1 - 4 / 6 x (1 - 0.75 x 3 / 8), as the follow-ups have it: half-way in, each wedge alike.
    assert found["share_of_volume_half_way_percent"] == approx(100 * (1 - 4 / 6 * 0.71875))
    assert (found["wedges_opened"], found["wedges"]) == ("N E S", 8)


@pytest.mark.parametrize(
    ("words", "percent"),
    [
        # A round ball: each of N wedges is a share of 1 / N.
        (["--wedges", "front left"], 25),
        (["--wedges", "12 3 6"], 25),
        (["--wedges", "NE", "--of", "6"], 100 / 6),
        (["--wedges", "W", "--of", "12", "--inwards", "1/2"], 75 / 12),
        (["--top", "1 cm", "--below", "1 cm"], 25),
        # (20 / 24)² of the plan is left.
        (["--sides", "2 cm"], 100 * (1 - 25 / 36)),
    ],
)
def test_shares_of_a_round_ball(figures, words, percent):
    found = figures("roots", "--ball", "24 x 8 cm", *words)
    assert (found["shape"], found["share_of_volume_percent"]) == ("round", approx(percent))


# ------------------------------------------------------------------ water

LYON = ("--latitude", "45.72 N", "--date", "2027-07-15", "--low", "14.8", "--high", "26.6")


def test_water_at_lyon_in_july(figures):
    # FAO-56, example 20: 5.0 mm a day.
    found = figures("water", *LYON, "--canopy", "40 x 35 cm", "--cover", "shade net 40 %")
    assert found["et0_mm"] == pytest.approx(5.0, abs=0.05)
    assert found["et0_method"] == "Hargreaves"
    # pi / 4 x 0.40 x 0.35 m², a factor of 0.8, and 1 - 0.7 x 0.40 under the net.
    assert found["canopy_m2"] == approx(0.109956)
    assert found["lost_litres_a_day"] == approx(found["et0_mm"] * 0.109956 * 0.8 * 0.72)
    assert found["cautions"] == ["An estimate to plan by: a finger in the soil decides."]


def test_water_in_lines(run):
    lines = run(
        "water", "--latitude", "47.6", "--date", "2027-07-15", "--low", "14", "--high", "27",
        "--canopy", "40 x 35 cm", "--pot", "36 x 28 x 12 cm", "--mix", MIX,
        "--cover", "shade net 40 %", "--rain", "2 mm",
    )  # fmt: skip
    # FAO-56 by hand: 40.42 MJ/m² above the air, 0.0023 x (20.5 + 17.8) x 13^0.5 x 0.408 x 40.42 =
    # 5.238 mm (`pyet`: 5.234). 36 x 28 x 12 cm are 12.096 L of a mix that holds 0.3525 of it; 2 mm
    # on 0.1008 m², 0.6 of it; half of 4.264 L at 0.3317 - 0.1210 L a day.
    assert [re.split(r"  +", line)[:2] for line in lines] == [
        ["ET0", "5.24 mm a day"],
        ["lost", "0.33 L a day"],
        ["rain caught", "0.12 L"],
        ["held", "4.26 L"],
        ["half gone in", "10.1 days"],
        ["! An estimate to plan by: a finger in the soil decides."],
    ]
    assert "FAO-56, Allen et al. 1998, eq. 52" in lines[0]


def test_half_gone_by_hand(figures):
    found = figures(
        "water", *LYON, "--canopy", "60 cm", "--foliage", "dense", "--pot", "30 x 20 x 10 cm"
    )  # fmt: skip
    # 6 L hold 35 %; a round canopy of 60 cm, factor 1.1.
    lost = found["et0_mm"] * math.pi / 4 * 0.36 * 1.1
    assert found["held_litres"] == approx(2.1)
    assert found["lost_litres_a_day"] == approx(lost)
    assert found["half_gone_days"] == approx(1.05 / lost)


def test_water_in_the_south_and_in_fahrenheit(figures):
    south = figures(
        "water", "--latitude", "33 S", "--date", "2027-01-10", "--low", "59 F", "--high", "86 F",
        "--canopy", "40 cm",
    )  # fmt: skip
    same = figures(
        "water", "--latitude", "-33", "--date", "2027-01-10", "--low", "15 C", "--high", "30 C",
        "--canopy", "40 cm",
    )  # fmt: skip
    assert south == same
    winter = figures(
        "water", "--latitude", "33", "--date", "2027-01-10", "--low", "15", "--high", "30",
        "--canopy", "40 cm",
    )  # fmt: skip
    assert winter["et0_mm"] < south["et0_mm"] / 1.5


def test_water_by_penman_monteith(figures):
    # FAO-56, example 18: Brussels, 6 July, 12.3 to 21.5 °C, 10 km/h at 10 m (2.078 m/s at 2 m),
    # 9.25 h of sun, 100 m: 3.9 mm. Its vapour pressure, 1.409 kPa, is 70.6 % of the mean saturation
    # pressure, 1.997.
    found = figures(
        "water", "--latitude", "50.8", "--date", "2027-07-06", "--low", "12.3", "--high", "21.5",
        "--humidity", "70.6 %", "--wind", "2.078 m/s", "--sun", "9.25 h", "--elevation", "100 m",
        "--canopy", "40 cm",
    )  # fmt: skip
    assert found["et0_method"] == "Penman-Monteith"
    assert found["et0_mm"] == pytest.approx(3.9, abs=0.05)


@pytest.mark.parametrize(
    ("cover", "factor"),
    [("open", 1), ("tunnel", 0.75), ("Unheated glass", 0.64), ("heated glass 5 C", 0.64)],
)
def test_covers(figures, cover, factor):
    found = figures("water", *LYON, "--canopy", "40 cm", "--cover", cover)
    assert found["cover_factor"] == approx(factor)


# ------------------------------------------------------------------ what is wrong or missing

WATER = ("water", *LYON, "--canopy", "40 cm")
POT = ("pot", "--inside", "36 x 28 x 12 cm")


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["pot"], "Give --inside as sizes such as 36 x 28 x 12 cm: length x width x depth at the "
         "rim, or across x depth."),
        (["pot", "--inside", "36 x 28 x 12"], "Give --inside as sizes such as 36 x 28 x 12 cm: "
         "“36 x 28 x 12” has no unit of length (the unit stands last: 38 x 27 x 7 cm)."),
        (["pot", "--inside", "ten cm"], "Give --inside as sizes such as 36 x 28 x 12 cm: "
         "“ten cm” is not understood beside “--inside”."),
        (["pot", "--inside", "36 x 28 x 12 cm x 2"], "Give --inside as sizes such as "
         "36 x 28 x 12 cm, and one of it (not “36 x 28 x 12 cm x 2”)."),
        (["pot", "--inside", "9999999 x 2 x 3 cm"], "Give --inside as sizes such as "
         "36 x 28 x 12 cm: this figure is too large."),
        (["pot", "--inside", "0 x 28 x 12 cm"], "Give the sizes of the pot in cm, above 0 "
         "(not 0)."),
        (["pot", "--inside", "3 x 2 cm", "--inside", "4 x 2 cm"], "Give --inside once, not 2 "
         "times."),
        (["pot", "--inside"], "Argument --inside: expected one argument; backbud reckon pot --help "
         "shows what to give."),
        (["pot", "--insid", "3 cm", "--colour", "red"], "--colour is not known here; backbud "
         "reckon pot --help shows what to give."),
        ([*POT, "--shape", "ovl"], "Give --shape as one of rectangle, oval, round, hexagon, drum: "
         "“ovl” is not understood beside “--shape” (did you mean “oval”?)."),
        (["pot", "--inside", "36 x 12 cm", "--shape", "oval"], "Give length, width and depth of "
         "the oval, in cm."),
        (["pot", "--outside", "36 x 28 x 12 cm"], "Give --wall as a length such as 8 mm: thickness "
         "of the wall."),
        ([*POT, "--outside", "40 x 30 x 14 cm"], "Give the pot by --inside or by --outside, not "
         "by both."),
        ([*POT, "--feet", "1 cm"], "Give --feet with --outside: inside sizes leave the feet out."),
        ([*POT, "--taper", "40 cm"], "A taper of 20 cm on each side does not fit a pot 28 cm wide: "
         "give how far one wall comes in from rim to floor, less than 14 cm."),
        ([*POT, "--root-ball", "40 x 22 x 8 cm"], "Give --root-ball as it is once it is cut: one "
         "of 40 × 22 × 8 cm does not go into a pot 36 × 28 cm inside."),
        ([*POT, "--root-ball", "30 x 22 x 13 cm"], "Give --root-ball only as deep as it stands in "
         "the soil, 12 cm at the most (not 13 cm)."),
        ([*POT, "--settles", "100 %"], "Give what the mix settles by in percent, from 0 to below "
         "100 (not 100)."),
        ([*POT, "--mix", "brick 1"], "Give --density for “brick”, a weight such as “brick 0.9-1.2 "
         "kg/L”: its weight is not known."),
        ([*POT, "--mix", "brick 1", "--density", "brick 1.2-0.9 kg/L"], "Give --density as a "
         "weight such as “brick 0.9-1.2 kg/L”: “1.2-0.9” does not rise (write the smaller number "
         "first)."),
        ([*WATER, "--pot", "20 x 8 cm", "--mix", "brick 1"], "Give --density for “brick”, a weight "
         "such as “brick 0.9-1.2 kg/L”: its weight is not known."),
        ([*POT, "--mix", "brick 1", "--density", "brick 0.9 kg/L"], "Give --density dry and "
         "soaked, such as “brick 0.9-1.2 kg/L”."),
        ([*POT, "--mix", "lava 1", "--trunk", "9 cm"], "Give --trunk and --height both: the trunk "
         "is weighed as a cone."),
        ([*POT, "--mix", "lava 1", "--density", "brick 0.9-1.2 kg/L"], "Give --density for an "
         "ingredient of the mix, lava (not “brick”)."),
        (["mix", "--litres", "20"], "Give --mix as parts by volume such as “akadama 2, pumice 1, "
         "lava 1”: the ingredients with their parts by volume."),
        (["mix", "--mix", " ", "--litres", "20"], "Give --mix as parts by volume such as “akadama "
         "2, pumice 1, lava 1”: the ingredients with their parts by volume."),
        (["mix", "--mix", "akadama"], "Give --mix as parts by volume such as “akadama 2, pumice 1, "
         "lava 1”: “akadama” does not say how much (its parts by volume stand last: akadama 2)."),
        (["mix", "--mix", MIX], "Give --litres as litres such as 20 L: how much of the mix."),
        (["mix", "--mix", "lava 1, lava 2", "--litres", "3"], "Give lava once in --mix, with all "
         "its parts."),
        (["mix", "--mix", "lava 50 %, grit 1", "--litres", "3"], "Give --mix in parts or in "
         "percent, not in both."),
        (["mix", "--mix", "lava 50 %, grit 30 %", "--litres", "3"], "Give --mix in percent that "
         "add up to 100 (not 80)."),
        (["mix", "--mix", MIX, "--litres", "3", "--bag", "prumice 14 L"], "Give --bag for an "
         "ingredient of the mix, akadama, pumice, lava (not “prumice”)."),
        (["mix", "--mix", "lava 1", "--litres", "3", "--sieving", "100 %"], "Give --sieving below "
         "100 % (not 100 %): none of the lava is left."),
        (["mix", "--mix", MIX, "--litres", "3", "--sieving", "pumice 120 %"], "Give --sieving "
         "below 100 % (not 120 %): none of the pumice is left."),
        (["mix", "--mix", MIX, "--litres", "3", "--bag", "14 kg"], "Give --bag as litres such as "
         "14 L or “pumice 25 L”: “14 kg” is not what “--bag” takes."),
        (["wire"], "Give --branch as a length such as 9 mm: thickness of the branch where it "
         "leaves the trunk."),
        (["wire", "--branch", "9"], "Give --branch as a length such as 9 mm: “9” has no unit."),
        (["wire", "--branch", "0 mm"], "Give the branch's thickness in mm, above 0 (not 0)."),
        (["wire", "--branch", "9 mm", "--metal", "steel"], "Give --metal as Al or Cu: “steel” is "
         "not understood beside “--metal”."),
        (["wire", "--pot", "20 x 8 cm"], "Give --holes as a whole number such as 2: the pot's "
         "drainage holes."),
        (["wire", "--pot", "20 x 8 cm", "--holes", "1.5"], "Give --holes as a whole number such as "
         "2: “1.5” is no whole number (write 1 or 2)."),
        (["wire", "--branch", "9 mm", "--length", "40 cm", "--angle", "90 degrees"], "A coil's "
         "angle lies between 0 and 90 degrees, not 90."),
        (["feed"], "Give --label as N-P-K such as 20-10-20: N-P-K as printed on it."),
        (["feed", "--label", "60-60-0"], "Give --label as N-P-K such as 20-10-20: “60-60-0” adds "
         "up to more than 100 (N-P-K are percent, as printed on the label)."),
        (["feed", "--label", "20-10-20"], "Give --dilution as a rate such as 0.5 g/L or 2 mL/L, or "
         "a ratio such as 1:500, or --wanted such as 100 ppm."),
        (["feed", "--label", "20-10-20", "--dilution", "1 g/min"], "Give --dilution as a rate such "
         "as 0.5 g/L or 2 mL/L, or a ratio such as 1:500 (not 1 g/min)."),
        (["feed", "--label", "5-5-5", "--dilution", "1:500"], "Give --density as a rate such as "
         "1.2 kg/L: this feed is measured by volume."),
        (["feed", "--label", "5-5-5", "--density", "0 kg/L", "--dilution", "1 g/L"], "Give "
         "--density as a rate such as 1.2 kg/L, above 0."),
        (["feed", "--label", "20-10"], "Give --label as N-P-K such as 20-10-20: a label has three "
         "numbers, not 2."),
        (["feed", "--label", "20-10-20-2"], "Give --label as N-P-K such as 20-10-20: a label has "
         "three numbers, not 4."),
        (["feed", "--label", "much"], "Give --label as N-P-K such as 20-10-20: “much” is not "
         "understood beside “--label”."),
        (["feed", "--label", "0-10-10", "--wanted", "100 ppm"], "This label has no nitrogen to "
         "reckon by."),
        (["feed", "--label", "5-5-5", "--wanted", "9 ppm", "--dilution", "1 g/L"], "Give "
         "--dilution or --wanted, not both: the one follows from the other."),
        (["feed", "--label", "5-5-5", "--dilution", "1 g/L", "--each", "1 L"], "Give --times as a "
         "whole number such as 12: how often it is fed in the season."),
        (["feed", "--label", "5-5-5", "--dilution", "1 g/L", "--weight", "9 g"], "Give --weight "
         "with --form cake; what is diluted has a --dilution."),
        (["roots", "--below", "2 cm"], "Give --ball as sizes such as 34 x 24 x 6 cm: length x "
         "width x depth before the work, or across x depth."),
        (["roots", "--ball", "34 x 24 x 6 cm"], "Give what was cut: --below a length such as 2 cm, "
         "or --wedges “N E S”."),
        (["roots", "--ball", "34 x 24 x 6 cm", "--below", "7 cm"], "More is off below and top than "
         "the ball's depth of 6 cm: give what was cut, or the size the ball had before."),
        (["roots", "--ball", "24 x 6 cm", "--wedges", "up"], "Give --wedges as wedges such as "
         "“N E S” or “12 3 6”: “up” is no wedge of the root ball (wedges: N NE E SE S SW W NW, "
         "front back left right, or the clock 1 to 12; the front is S or 6)."),
        (["roots", "--ball", "24 x 6 cm", "--wedges", "E", "--of", "6"], "Give --of as a number in "
         "which “E” is one wedge, such as 8 or 12: of 6 it lies between two."),
        (["roots", "--ball", "24 x 6 cm", "--wedges", "E 3"], "Give each wedge once in --wedges: "
         "of 12, “E” and “3” are one."),
        (["roots", "--ball", "24 x 6 cm", "--wedges", "E", "--of", "99"], "Give --of as a whole "
         "number from 2 to 24: “99” is out of range (it lies between 2 and 24)."),
        (["roots", "--ball", "24 x 6 cm", "--below", "1 cm", "--of", "8"], "Give --wedges as "
         "wedges such as “N E S” or “12 3 6”: which of them were opened."),
        (["water", "--low", "14"], "Give --high as a temperature such as 27 C: the day's high."),
        (["water", "--low", "28", "--high", "27"], "Give --low below --high: 28 °C is above "
         "27 °C."),
        (["water", "--low", "14", "--high", "27"], "Give --date as one exact day such as "
         "2027-07-15: the day, for the sun."),
        (["water", "--low", "14", "--high", "27", "--date", "2027-07"], "Give --date as one exact "
         "day such as 2027-07-15, not “2027-07”."),
        (["water", "--low", "14", "--high", "27", "--date", "2027-02-30"], "Give --date as one "
         "exact day such as 2027-07-15: there is no 2027-02-30 (that month runs "
         "from 2027-02-01 to 2027-02-28)."),
        (["water", "--low", "14", "--high", "27", "--date", "2027-07-15", "--latitude", "95"],
         "Give --latitude as degrees such as 47.6 or “33 S”: “95” is out of range (it lies between "
         "-90 and 90)."),
        (["water", *LYON], "Give --canopy as sizes such as 40 x 35 cm: the crown from above, "
         "across and across."),
        (["water", *LYON, "--canopy", "40 x 35 x 60 cm"], "Give --canopy as sizes such as "
         "40 x 35 cm, without a height."),
        ([*WATER, "--cover", "shade net"], "Give --cover as one of open, shade net, cold frame, "
         "tunnel, unheated glass, heated glass, indoors; a net with its shade, “shade net 40 %”."),
        ([*WATER, "--cover", "shade net 140 %"], "Give --cover as one of open, shade net, cold "
         "frame, tunnel, unheated glass, heated glass, indoors; a net with its shade, “shade net "
         "40 %”: “140 %” is out of range (it lies between 0 and 100 %)."),
        ([*WATER, "--rain", "4 mm"], "Give --pot as sizes such as 36 x 28 x 12 cm: the rain falls "
         "into it."),
        ([*WATER, "--wind", "2 m/s"], "Give --humidity, --wind and --sun all three, or none of "
         "them."),
    ],
)  # fmt: skip
def test_one_sentence_says_what_to_give(refused, words, says):
    assert refused(*words) == says


# ------------------------------------------------------------------ the command itself


@pytest.mark.parametrize("name", ["pot", "mix", "wire", "feed", "roots", "water"])
def test_each_help_has_an_example_that_runs(capsys, name):
    import shlex

    with pytest.raises(SystemExit) as leaving:
        main(["reckon", name, "--help"])
    assert leaving.value.code == 0
    help_text = capsys.readouterr().out
    (example,) = [line.strip() for line in help_text.splitlines() if "  backbud reckon " in line]
    assert main(shlex.split(example)[1:]) == 0
    assert len(capsys.readouterr().out.splitlines()) >= 3


def test_reckon_alone_lists_the_sums(capsys):
    assert main(["reckon"]) == 2
    out = capsys.readouterr().out
    assert all(f"\n    {name} " in out for name in ("pot", "mix", "wire", "feed", "roots", "water"))


def test_installed_command_needs_no_journal(tmp_path):
    backbud = Path(sys.executable).with_name("backbud")
    command = [backbud, "reckon", "pot", "--shape", "oval", "--inside", "36 x 28 x 12 cm"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.splitlines()[0].startswith("volume        9.50 L ")
    assert list(tmp_path.iterdir()) == []


def test_installed_command_refuses_on_stderr(tmp_path):
    command = [sys.executable, "-m", "backbud", "reckon", "wire", "--branch", "9"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == (
        "backbud: Give --branch as a length such as 9 mm: “9” has no unit.\n"
    )  # fmt: skip


def test_other_commands_do_not_load_it(tmp_path):
    code = (
        "import sys; from backbud.cli import main\n"
        "try: main(['--help'])\n"
        "except SystemExit: pass\n"
        "print([m for m in sys.modules if m.startswith(('backbud.commands.reckon', 'lark'))])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert "reckon" in done.stdout
    assert done.stdout.splitlines()[-1] == "[]"
