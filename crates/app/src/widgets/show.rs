//! What Show is made of: drawings that answer a tap, large words, the key that is held, the field that is signed.

pub mod drawn;
pub mod hold;
pub mod prose;
pub mod signing;
