"""A kit in → what holds it together, worked out and checked; what words ask of it, answered."""
