"""Text in → plain values with their places; the kinds of value that a build file holds."""
