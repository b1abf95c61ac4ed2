"""Parts where they meet cars and jobs: their page, moves, what is wanted and by when, what cars are owed."""
