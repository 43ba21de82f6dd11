"""How much chill the hours of a winter are worth to a resting bud.

Three measures stand side by side because requirements are published in each of them: chill hours,
Utah chill units, and the chill portions of the Dynamic model, which hold best in mild winters.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from collections.abc import Iterable

from msgspec import Struct

# Richardson, Seeley & Walker 1974 (HortScience 9: 331-332). Each step ends with its own limit:
# 1.4 °C still gives 0, 2.4 °C still gives 0.5. So the library chillR has it, and xclim but for the
# last step, which it ends at 17.9 °C.
_UTAH_STEP_ENDS_C = (1.4, 2.4, 9.1, 12.4, 15.9, 18.0)
_UTAH_UNITS = (0.0, 0.5, 1.0, 0.5, 0.0, -0.5, -1.0)

# Constants of the Dynamic model: Fishman, Erez & Couvillon 1987 (J. Theor. Biol. 124: 473-483 and
# 126: 309-321), as set down by Luedeling et al. 2009; the same in the library xclim.
_E0_K = 4153.5  # activation energy of what builds the intermediate, over the gas constant
_E1_K = 12888.8  # the same of what undoes it
_A0_PER_H = 139500.0
_A1_PER_H = 2.567e18
_SLOPE = 1.6
_TRANSITION_K = 277.0
# As the library chillR converts; xclim takes 273.15, which gives a season 1 to 2 % less chill.
_ZERO_C_IN_K = 273.0

# Outside it an hour is a slip of the thermometer or of the pen.
_LOWEST_C, _HIGHEST_C = -90.0, 70.0


class DynamicState(Struct, frozen=True, gc=False):
    """Where the Dynamic model stands after an hour.

    `intermediate`: the product that cold builds and warmth undoes, as a share of what one portion
    needs. `portions`: chill portions so far, which nothing undoes.
    """

    intermediate: float = 0.0
    portions: float = 0.0


DYNAMIC_START = DynamicState()


def chill_hours(hourly_c: Iterable[float]) -> int:
    """Return how many of the hours lie between 0 and 7.2 °C, both counted (Weinberger 1950)."""
    return sum(1 for hour_c in hourly_c if 0.0 <= _checked(hour_c) <= 7.2)


def utah_units_of_hour(hour_c: float) -> float:
    """Return the Utah chill units (-1 to 1) of one hour at `hour_c` °C (Richardson et al. 1974)."""
    return _UTAH_UNITS[bisect_left(_UTAH_STEP_ENDS_C, _checked(hour_c))]


def utah_units(hourly_c: Iterable[float]) -> float:
    """Return the Utah chill units of the hours since their sum was lowest; never under 0.

    The warm hours of early autumn take away what was never there, so counting begins where the
    running sum is at its lowest (common practice, no source checked).
    """
    running = lowest = 0.0
    for hour_c in hourly_c:
        running += utah_units_of_hour(hour_c)
        lowest = min(lowest, running)
    return running - lowest


def chill_portions(hourly_c: Iterable[float], state: DynamicState = DYNAMIC_START) -> DynamicState:
    """Return where the Dynamic model stands after these hours, carried on from `state`.

    Each hour the intermediate moves towards its balance between building and undoing. Once it is
    whole, a share of it, larger the warmer, becomes chill portions for good; the rest goes on.
    Fishman, Erez & Couvillon 1987. To keep a season going, give back what was returned.
    ValueError for a temperature outside -90 to 70 °C.
    """
    exp = math.exp
    balance_energy_k = _E1_K - _E0_K
    balance_factor = _A0_PER_H / _A1_PER_H
    intermediate, portions = state.intermediate, state.portions
    for hour_c in hourly_c:
        kelvin = _checked(hour_c) + _ZERO_C_IN_K
        balance = balance_factor * exp(balance_energy_k / kelvin)
        undoing_per_h = _A1_PER_H * exp(-_E1_K / kelvin)
        intermediate = balance - (balance - intermediate) * exp(-undoing_per_h)
        if intermediate >= 1.0:
            transition = exp(_SLOPE * _TRANSITION_K * (kelvin - _TRANSITION_K) / kelvin)
            turned = intermediate * transition / (1.0 + transition)
            portions += turned
            intermediate -= turned
    return DynamicState(intermediate, portions)


def _checked(hour_c: float) -> float:
    # Written so that a NaN, which compares as False with everything, is refused as well.
    if not _LOWEST_C <= hour_c <= _HIGHEST_C:
        raise ValueError(f"{hour_c} °C is no air temperature")
    return hour_c
