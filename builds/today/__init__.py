"""Tonight: who is in, what is next for each, what changed; the pull list and job cards."""
