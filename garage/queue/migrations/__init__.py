"""The table of the queue: see MIGRATION_MODULES in the settings."""
