//! Lists that are read, and lists that are not: each with its line and its reason.
