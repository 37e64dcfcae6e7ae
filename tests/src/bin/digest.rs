//! The fixed scene as a program of its own. Natively it prints the digest, to be committed when figures change on
//! purpose: `cargo run -p layshaft-tests --bin digest > tests/digests/scene.txt`. In wasm there is nowhere to print,
//! so it compares with what is committed, and its status is the number of the first line that differs (at most 255).

use std::process::ExitCode;

use layshaft_tests::digest::{COMMITTED, first_difference, scene_digest};

fn main() -> ExitCode {
    let digest = scene_digest();
    if cfg!(target_family = "wasm") {
        let line = first_difference(&digest, COMMITTED).unwrap_or(0);
        ExitCode::from(u8::try_from(line).unwrap_or(u8::MAX))
    } else {
        print!("{digest}");
        ExitCode::SUCCESS
    }
}
