"""Oil that flows: how thick it is, what a hose takes of its pressure, what a burst hose costs."""
