"""What happened on a job, what it means, and what may be done next."""
