"""Checks of cautions: where they are waived, what those of the stock say."""
