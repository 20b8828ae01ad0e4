"""leafturn: season-by-season tending of a perennial polyculture. No user interface in here."""

__version__ = "0.1.0"
