"""Papers of an almanac, and how they become files."""
