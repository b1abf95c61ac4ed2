"""The invented demo garage, loaded through the same actions as a real one."""
