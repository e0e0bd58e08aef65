"""What in a sound checklist may be meant otherwise: warnings, each with its line."""
