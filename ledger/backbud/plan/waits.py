"""A follow-up goes in; whether its days still hang on weather that is only expected comes out."""

from __future__ import annotations

from datetime import date

from backbud.plan.followups import FollowUp

WAITS = "waits on the weather"

# What the climate's sentences say of days that nobody has measured yet (`climate/outlook.py`,
# `climate/stages.py`); a test holds them together.
_EXPECTED = (
    "; the rest by ",
    "; the rest as in ",
    ", the rest by ",
    " °C here (by ",
    "In nine of ten years the ",
    " is to be expected by ",
    " °C on the average (by ",
)


def waits_on_weather(follow_up: FollowUp, today: date) -> bool:
    """Whether a follow-up is still to come and its reasons rest on weather that is predicted."""
    return follow_up.state(today) == "coming" and any(
        sign in reason.text
        for reason in follow_up.because
        if reason.sort in ("datum", "season")
        for sign in _EXPECTED
    )
