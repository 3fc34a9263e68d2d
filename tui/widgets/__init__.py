"""Parts that screens share. They show values and post messages; they know no workshop."""
