"""What was read while a clock ran: evacuation, holds, timed readings."""
