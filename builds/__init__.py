"""Jobs, links, recipes, the plan, checks: every page that mixes fleet with work."""
