"""Many garages on one server: what people wait for while others work and search."""
