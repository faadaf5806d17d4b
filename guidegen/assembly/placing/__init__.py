"""A kit in → where each of its sheets lies: on a body, on others, on the ground."""
