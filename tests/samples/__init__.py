"""Small gardens, journals and values that several tests stand on."""
