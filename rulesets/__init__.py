"""The library of age-class rules as data, and how they are found and read."""
