//! temp
fn main() {
    divan::main();
}
