"""The pre-event sheet, the do-not-drive tag, the setup sheet, the plan for the wall and a car's photos by day."""
