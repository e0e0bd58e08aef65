"""The record of a job: its content, its pages, its signatures and their verification."""
