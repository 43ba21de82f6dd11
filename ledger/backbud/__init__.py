"""The compiler of a care journal: a folder of notes comes in, a care calendar and pages go out."""

__version__ = "0.1.0"
