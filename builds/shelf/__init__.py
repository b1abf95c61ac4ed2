"""Parts where they meet cars and jobs: their page, moves, what cars are owed."""
