"""Template sheets as pages in true size, key pages first."""
