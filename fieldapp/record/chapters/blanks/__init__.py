"""What a blank holds, drawn nowhere yet."""
