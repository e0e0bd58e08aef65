"""What a reader asks first: heading, outcome, key figures, line diagram."""
