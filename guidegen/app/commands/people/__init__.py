"""Options of commands that make files for people that one knows."""
