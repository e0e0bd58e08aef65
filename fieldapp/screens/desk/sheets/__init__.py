"""The job sheet as it is chosen or typed, and its plan."""
