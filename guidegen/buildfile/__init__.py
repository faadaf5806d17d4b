"""Files of a content folder in → typed build files out, every value with file, line and column."""
