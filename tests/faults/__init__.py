"""Faults tried on the program: a short form in the plain suite, a long one by `pytest -m faults`."""
