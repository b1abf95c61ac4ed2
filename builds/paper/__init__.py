"""The pre-event sheet, the do-not-drive tag, the setup sheet and a car's photos by day."""
