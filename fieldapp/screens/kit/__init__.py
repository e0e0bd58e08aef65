"""The widgets all screens are drawn with: plates, keys, marks, patterns, rulers and words."""
