"""What cars, jobs and events cost, and their budgets."""
