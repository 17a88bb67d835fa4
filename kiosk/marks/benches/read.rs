//! How long it takes to read one side from decoded pixels.
fn main() {
    divan::main();
}
