"""What is said of an answer, whatever it is said in."""
