"""What fields can hold when each cut goes edge to edge."""
