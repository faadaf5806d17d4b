"""Files of a leader: who comes to a class, and when it is."""
