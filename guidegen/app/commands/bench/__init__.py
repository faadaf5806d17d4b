"""Commands of the bench: drawings from photos and files, worksheets from talks."""
