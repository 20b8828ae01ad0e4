"""Drawings in characters: numbers in, cells out."""
