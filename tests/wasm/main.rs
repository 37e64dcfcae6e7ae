//! The fixed scene in wasm, by an interpreter, so that this needs no browser. The module may import nothing: that
//! proves that all below the page does without one.
//!
//! `cargo xtask ci digest` builds the module and runs this.

use layshaft_tests::digest::COMMITTED;
use wasmi::{Engine, Linker, Module, Store};

#[test]
fn the_scene_has_the_same_bits_in_wasm() {
    let path = std::env::var("LAYSHAFT_DIGEST_WASM").expect("run `cargo xtask ci digest`");
    let bytes = std::fs::read(path).expect("the module is built");
    let line = run(&bytes);
    let committed = COMMITTED
        .lines()
        .nth(usize::try_from(line - 1).unwrap_or_default())
        .unwrap_or_default();
    assert_eq!(
        line, 0,
        "wasm differs from the committed digest first in line {line} (255: there or after it): {committed}"
    );
}

/// Runs the program in the module and gives its status.
fn run(bytes: &[u8]) -> i32 {
    let engine = Engine::default();
    let module = Module::new(&engine, bytes).expect("the module is sound");
    let mut store = Store::new(&engine, ());
    let instance = Linker::new(&engine)
        .instantiate_and_start(&mut store, &module)
        .expect("the module asks for nothing that only a browser has");
    let main = instance
        .get_typed_func::<(i32, i32), i32>(&store, "main")
        .expect("a program has a main");
    main.call(&mut store, (0, 0))
        .expect("the scene is computed without a trap")
}
