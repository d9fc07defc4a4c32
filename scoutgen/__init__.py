"""Charts and scouting entries in; an honest, private scouting site out."""

__version__ = "0.1.0"
