"""The one screen: keys, frame, slow work, and the widgets that draw prepared rows."""
