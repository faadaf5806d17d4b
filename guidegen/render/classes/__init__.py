"""Plan of a class in → papers of its leader, its stations and its people."""
