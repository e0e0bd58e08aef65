"""The widgets all screens are drawn with: plates, keypad, strip, route, ruler, marks and words."""
