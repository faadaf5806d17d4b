"""Printable build guides from YAML build files and drawn templates."""

__version__ = "0.1.0"
