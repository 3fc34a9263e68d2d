"""What fields can hold when rectangles may lie freely."""
