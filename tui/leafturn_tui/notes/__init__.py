"""What people type, turned into notes."""

from __future__ import annotations


class NotUnderstood(ValueError):
    """Something typed cannot be read. The message is one plain sentence for the person."""
