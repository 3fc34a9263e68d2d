"""What kills, errors and full disks do to a collection, through the real program."""
