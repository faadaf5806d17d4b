"""The registry of findings: every code with its group, severity, reason and cure."""
