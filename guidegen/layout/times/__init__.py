"""Steps in → who does what when: one person, a team, a class."""
