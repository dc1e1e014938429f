//! Acceptance tests at the borders of Underbrick; the library itself is empty.
