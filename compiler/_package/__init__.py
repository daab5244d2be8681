"""Setwright: a plain-text language for strength programs, and its compiler."""

__version__ = "0.1.0"
