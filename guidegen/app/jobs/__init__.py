"""Units of work, pure and picklable, and what several commands share around them."""
