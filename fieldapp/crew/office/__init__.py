"""What the office does for its crews: its books, and the trust file that it gives out."""
