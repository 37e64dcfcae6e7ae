//! Lays out `dist/`: the program under names that carry a hash of its contents, and the files of `static/` with
//! those names filled in.
//!
//! A static file may hold these marks: `%APP_JS%` and `%APP_WASM%` (names of the two halves of the program),
//! `%BUILD%` (a short hash of everything, new whenever anything changed), `%OFFLINE%` (`yes` where the page is to be kept
//! on the visitor's device, else `no`) and `%OFFLINE_FILES%` (a JSON list of the files to keep, else `null`). All names are
//! relative, so that the page works from any folder of any host.

use std::path::{Path, PathBuf};

use anyhow::Context;
use flate2::Crc;

use crate::build::{Profile, Program};
use crate::{icon, workspace};

/// What npm leaves in `static/` and the page does not need.
const NOT_SERVED: [&str; 3] = ["node_modules", "package.json", "package-lock.json"];

/// Kept on no device: the service worker itself, which the browser keeps, and demos, which the program has in it.
const NOT_KEPT: [&str; 3] = ["service-worker.js", "index.html", "demos/"];

/// Writes `dist/` anew and gives the paths of its files. A build for developers is kept on no device: it changes too often.
pub fn lay_out(program: &Program, profile: Profile) -> anyhow::Result<Vec<PathBuf>> {
    let dist = workspace::dist();
    if dist.exists() {
        std::fs::remove_dir_all(&dist).with_context(|| format!("cannot empty {}", dist.display()))?;
    }
    let mut files = named_by_contents(program);
    let names = Names {
        js: files[0].0.clone(),
        wasm: files[1].0.clone(),
    };
    read_folder(&workspace::root().join("static"), Path::new(""), &mut files)?;
    let drawing = std::fs::read_to_string(workspace::root().join("static/icon.svg"))?;
    files.extend(icon::pictures(&drawing)?);
    files.sort();
    fill_in_marks(&mut files, &names, profile);
    files
        .into_iter()
        .map(|(name, contents)| write(&dist.join(name), &contents))
        .collect()
}

/// The file names of the two halves of the program.
struct Names {
    js: String,
    wasm: String,
}

/// A file of `dist/`: its name from there, with slashes, and its contents.
type File = (String, Vec<u8>);

/// The program's JavaScript and WebAssembly. The former names the latter, so one hash of both serves for both.
fn named_by_contents(program: &Program) -> Vec<File> {
    let hash = hash([program.js.as_bytes(), &program.wasm]);
    let wasm = format!("layshaft-{hash}.wasm");
    let js = program.js.replace("layshaft_bg.wasm", &wasm);
    vec![
        (format!("layshaft-{hash}.js"), js.into_bytes()),
        (wasm, program.wasm.clone()),
    ]
}

/// Eight hexadecimal digits. They tell versions apart in a cache; nothing is protected by them.
fn hash<'a>(parts: impl IntoIterator<Item = &'a [u8]>) -> String {
    let mut crc = Crc::new();
    parts.into_iter().for_each(|part| crc.update(part));
    format!("{:08x}", crc.sum())
}

fn read_folder(folder: &Path, below: &Path, files: &mut Vec<File>) -> anyhow::Result<()> {
    for entry in std::fs::read_dir(folder).with_context(|| format!("cannot list {}", folder.display()))? {
        let entry = entry?;
        let file_name = entry.file_name();
        if NOT_SERVED.iter().any(|name| file_name == *name) {
            continue;
        }
        let name = below.join(&file_name);
        if entry.file_type()?.is_dir() {
            read_folder(&entry.path(), &name, files)?;
        } else {
            files.push((
                name.to_string_lossy().replace('\\', "/"),
                std::fs::read(entry.path())?,
            ));
        }
    }
    Ok(())
}

/// Replaces the marks in the text files of `static/`.
fn fill_in_marks(files: &mut [File], names: &Names, profile: Profile) {
    let build = hash(
        files
            .iter()
            .flat_map(|(name, contents)| [name.as_bytes(), contents]),
    );
    let kept = files.iter().map(|(name, _)| name);
    let kept: Vec<&String> = kept
        .filter(|name| !NOT_KEPT.iter().any(|start| name.starts_with(start)))
        .collect();
    let (offline, list) = match profile {
        Profile::Web => ("yes", serde_json::json!(kept).to_string()),
        Profile::Dev => ("no", "null".to_owned()),
    };
    for (name, contents) in files.iter_mut().filter(|(name, _)| may_hold_marks(name)) {
        let Ok(text) = std::str::from_utf8(contents) else {
            continue;
        };
        let filled = text
            .replace("%APP_JS%", &names.js)
            .replace("%APP_WASM%", &names.wasm)
            .replace("%BUILD%", &build)
            .replace("%OFFLINE%", offline)
            .replace("%OFFLINE_FILES%", &list);
        if *name != names.js {
            *contents = filled.into_bytes();
        }
    }
}

fn may_hold_marks(name: &str) -> bool {
    [".html", ".js", ".webmanifest"]
        .iter()
        .any(|ending| name.ends_with(ending))
}

fn write(path: &Path, contents: &[u8]) -> anyhow::Result<PathBuf> {
    let folder = path.parent().expect("a file of dist/ has a folder");
    std::fs::create_dir_all(folder).with_context(|| format!("cannot make {}", folder.display()))?;
    std::fs::write(path, contents).with_context(|| format!("cannot write {}", path.display()))?;
    Ok(path.to_owned())
}

/// Weight of the page's WebAssembly as built last, bytes.
pub fn wasm_size() -> anyhow::Result<u64> {
    for entry in std::fs::read_dir(workspace::dist())? {
        let entry = entry?;
        if is_program(&entry.path()) && entry.path().extension().is_some_and(|ending| ending == "wasm") {
            return Ok(entry.metadata()?.len());
        }
    }
    anyhow::bail!("dist/ holds no WebAssembly")
}

/// Prints the weight of the program's files, as they are and as a browser fetches them.
pub fn print_sizes(files: &[PathBuf]) {
    for file in files.iter().filter(|file| is_program(file)) {
        let name = file.file_name().unwrap_or_default().to_string_lossy();
        let brotli = size_of(&format!("{}.br", file.display()));
        let packed = brotli.map_or(String::new(), |size| format!(", brotli {}", kilobytes(size)));
        let raw = size_of(&file.display().to_string()).map_or_else(|| "missing".to_owned(), kilobytes);
        eprintln!("  {name}: {raw}{packed}");
    }
}

/// Is this one of the two halves of the program?
fn is_program(file: &Path) -> bool {
    file.file_name()
        .is_some_and(|name| name.to_string_lossy().starts_with("layshaft-"))
}

/// Bytes of a file, if it is there.
fn size_of(path: &str) -> Option<u64> {
    std::fs::metadata(path).ok().map(|data| data.len())
}

fn kilobytes(bytes: u64) -> String {
    format!("{:.1} KB", bytes as f64 / 1000.0)
}
