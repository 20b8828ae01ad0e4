"""How well bloom dates are forecast, measured on records of others. Run `python -m tests.skill --help`."""
