"""The shapes of what a record holds; the published schema is made from them."""
