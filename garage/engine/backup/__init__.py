"""What a backup holds and how its rows are written: plain Python, so that any tool could read one."""
