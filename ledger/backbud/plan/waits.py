"""Tells whether a follow-up's days still hang on weather that is only expected."""

from __future__ import annotations

from datetime import date

from backbud.plan.followups import FollowUp

WAITS = "waits on the weather"


def waits_on_weather(follow_up: FollowUp, today: date) -> bool:
    """Whether a follow-up is still to come and its reasons rest on weather that is predicted."""
    return follow_up.state(today) == "coming" and rests_on_expected(follow_up)


def rests_on_expected(follow_up: FollowUp) -> bool:
    """Whether one of its reasons rests on weather that nobody has measured yet."""
    return True in [reason.expected for reason in follow_up.because]
