"""What the office asks before a job, answered from its job sheet."""
