"""The stages at work: commands, their units of work, the processes that do them, the preview."""
