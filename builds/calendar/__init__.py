"""The calendar that phones subscribe to: evenings with their jobs, cures, parts, events."""
