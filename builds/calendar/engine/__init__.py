"""What a calendar holds, what became of it since it was last asked for, and the clock changes of its zone."""
