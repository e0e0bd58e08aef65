"""What the events of a job are worth: values, verdicts, deviations, gates."""
