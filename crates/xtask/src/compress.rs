//! Brotli and gzip copies beside the originals, for servers that hand out files already packed.
//!
//! Packed once at build time with all the effort there is; formats that are packed already are left alone.

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::Context;
use brotli::enc::BrotliEncoderParams;
use flate2::{Compression, write::GzEncoder};

/// Endings of files that gain from packing.
const PACKABLE: [&str; 9] = [
    "html",
    "css",
    "js",
    "wasm",
    "svg",
    "json",
    "webmanifest",
    "txt",
    "ico",
];

/// Writes `name.br` and `name.gz` beside each file that gains from it.
pub fn beside_originals(files: &[PathBuf]) -> anyhow::Result<()> {
    for file in files.iter().filter(|file| is_packable(file)) {
        let contents = std::fs::read(file)?;
        write_beside(file, "br", &brotli(&contents)?)?;
        write_beside(file, "gz", &gzip(&contents)?)?;
    }
    Ok(())
}

fn is_packable(file: &Path) -> bool {
    file.extension()
        .is_some_and(|ending| PACKABLE.iter().any(|known| ending == *known))
}

fn brotli(contents: &[u8]) -> anyhow::Result<Vec<u8>> {
    let parameters = BrotliEncoderParams {
        quality: 11,
        lgwin: 22,
        ..BrotliEncoderParams::default()
    };
    let mut packed = Vec::new();
    brotli::BrotliCompress(&mut &contents[..], &mut packed, &parameters)?;
    Ok(packed)
}

fn gzip(contents: &[u8]) -> anyhow::Result<Vec<u8>> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(contents)?;
    Ok(encoder.finish()?)
}

fn write_beside(file: &Path, ending: &str, contents: &[u8]) -> anyhow::Result<()> {
    let path = PathBuf::from(format!("{}.{ending}", file.display()));
    std::fs::write(&path, contents).with_context(|| format!("cannot write {}", path.display()))
}
