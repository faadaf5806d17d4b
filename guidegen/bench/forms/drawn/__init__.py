"""Flat pieces in → drawings, maps of strain, views of the form, lines of a build file out."""
