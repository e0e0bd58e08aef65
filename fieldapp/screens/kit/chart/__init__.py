"""The chart of timed readings, and the two touches that take one."""
