//! The take-off against figures from outside.
