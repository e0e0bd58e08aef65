"""What a tablet does for its crew: keys and requests, what the office sent, wrong secrets."""
