"""Font packages in → the files that pages and documents use, with the letters they need."""
