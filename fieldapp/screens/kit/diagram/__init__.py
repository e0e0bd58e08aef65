"""The line diagram of a hookup."""
