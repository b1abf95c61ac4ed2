"""The project package, and the fleet: garages, people, vehicles, events, stations, sharing."""
