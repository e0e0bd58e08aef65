"""What the technician and the crew lead see and touch."""
