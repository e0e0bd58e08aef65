"""The weeks after a hookup: water removed, when to come back, and when it is dry."""
