"""Sowsheet: a grower's rough plan in, dated wall chart, tray plan and job sheets out."""

__version__ = "0.1.0"
