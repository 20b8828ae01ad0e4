"""What people type, turned into notes."""
