"""What is written, what is ours, and what stays from an earlier build."""
