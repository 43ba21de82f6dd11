"""Photographs that the diary names: found, looked at, and copied for the pages."""
