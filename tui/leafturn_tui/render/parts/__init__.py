"""What several answers share: headings, groups of sentences, values as JSON."""
