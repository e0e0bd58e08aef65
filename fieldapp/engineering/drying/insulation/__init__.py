"""Insulation drying from inside: how water moves through paper and board to their faces."""
