"""What a touch means, without a window: the desk between screens and actions."""
