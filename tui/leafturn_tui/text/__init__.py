"""Text in cells: layout, styles and phrases, the same on pages, in commands and on papers."""
