"""Words with numbers that follow the size: where they stand, what they ask for, how they read."""
