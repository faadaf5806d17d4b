"""One module for each command of guidegen: options in → files out, findings told."""
