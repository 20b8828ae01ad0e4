"""Tests. A package, so that no other of this name that an environment may hold is taken for it."""
