//! Latency.
fn main() {}
