"""Lists of games and folders of pictures, read and matched."""
