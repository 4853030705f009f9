"""What is measured, beside peers in the same run; nothing of it is needed to plan a wedding."""
