"""The plan of a job sheet on paper."""
