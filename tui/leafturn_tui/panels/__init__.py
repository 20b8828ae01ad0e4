"""What may lie over the lower half of a page: reasons, questions, pick-lists and lines to type.

They hold what was typed and chosen themselves and know no widget, so that a resize loses nothing.
"""
