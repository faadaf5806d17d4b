"""Findings: the registry of their codes, what silences them, how they are told."""
