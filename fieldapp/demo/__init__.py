"""An invented job, played through the same actions as a real one."""
