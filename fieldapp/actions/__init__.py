"""What people can do in a job, and when they may not."""
