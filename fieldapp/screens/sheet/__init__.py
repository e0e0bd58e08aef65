"""The job sheet read and typed, and the plan that follows from it."""
