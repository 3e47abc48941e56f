"""What must be documented, and the reference in the README that is written from the program."""
