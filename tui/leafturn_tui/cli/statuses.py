"""The exit statuses of commands."""

from __future__ import annotations

FINE, FAULTS, UNREADABLE = 0, 1, 2
INTERRUPTED = 130  # common practice of shells: 128 and the number of the signal
