"""What an almanac answers, in plain lines and as JSON."""
