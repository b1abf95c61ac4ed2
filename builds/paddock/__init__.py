"""The event's day on a phone without signal; writes that come late."""
