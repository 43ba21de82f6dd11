"""The met services that are known here, by the key that names one in the settings."""

from __future__ import annotations

from collections.abc import Mapping

from backbud.services import met_norway, us_weather_service
from backbud.services.service import Service

SERVICES: Mapping[str, Service] = {
    one.key: one for one in (met_norway.SERVICE, us_weather_service.SERVICE)
}
