"""The commands: reading the words after `leafturn`, and doing what they ask."""
