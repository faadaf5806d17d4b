"""Templates and a paper in → the pages on which they lie at true size."""
