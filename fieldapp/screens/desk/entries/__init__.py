"""What is entered, read and photographed, and with which instrument."""
