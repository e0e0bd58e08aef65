"""Water in oil and in paper: how much, how wet that is, and where the method stops."""
