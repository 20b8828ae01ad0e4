"""Places as maps and satellite receivers have them, in degrees, against metres from the garden's datum."""
