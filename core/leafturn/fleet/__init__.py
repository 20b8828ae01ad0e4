"""Many gardens asked the same: each by itself, its answers as rows of tables, written as they come."""
