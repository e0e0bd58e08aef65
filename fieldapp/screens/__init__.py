"""What the technician sees and touches on the tablet."""
