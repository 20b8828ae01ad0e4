"""What may be asked over a page: reasons, questions, pick-lists and lines to type.

They know no widget: the screen's dialog types, chooses and scrolls, and holds what was typed and chosen.
"""
