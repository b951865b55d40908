"""What a teacher would say of a plan, what could hurt somebody, and what nobody means."""
