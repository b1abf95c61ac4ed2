"""Plain Python that both upper apps need."""
