//! `cargo xtask serve`: builds, then hands out `dist/` on 127.0.0.1 as a static host would.
//!
//! The library finds MIME types and the packed copies. Browsers are told to ask again each time, so that a rebuild
//! shows at once. The browser tests use the same server on a port of the system's choice.

use std::io::ErrorKind;
use std::net::{Ipv4Addr, SocketAddr, TcpListener};
use std::path::Path;

use anyhow::{Context, anyhow, ensure};
use axum::Router;
use axum::http::{HeaderValue, header};
use tower_http::services::ServeDir;
use tower_http::set_header::SetResponseHeaderLayer;

use crate::{Arguments, build, workspace};

/// The port tried unless another is asked for.
pub const USUAL_PORT: u16 = 8017;

/// Builds if asked to, serves until interrupted.
pub fn serve(arguments: &Arguments) -> anyhow::Result<()> {
    // The port first: a taken port should not cost a build.
    let listener = listen(arguments.port)?;
    if arguments.build_first {
        build::build(arguments.profile)?;
    }
    let dist = workspace::dist();
    ensure!(
        dist.join("index.html").is_file(),
        "there is no page yet; run `cargo xtask build` first"
    );
    println!(
        "Layshaft is at http://{}/ (stop with Ctrl+C)",
        listener.local_addr()?
    );
    serve_folder(listener, &dist)
}

/// Serves what is built beside the running command, on a port of the system's choice; gives the page's address.
pub fn in_background() -> anyhow::Result<String> {
    let listener = listen(0)?;
    let address = format!("http://{}/", listener.local_addr()?);
    // Ends with the process: it holds nothing that wants tidying up.
    std::thread::spawn(move || serve_folder(listener, &workspace::dist()));
    Ok(address)
}

/// Takes a port of this machine, 0 for any that is free.
pub fn listen(port: u16) -> anyhow::Result<TcpListener> {
    TcpListener::bind(SocketAddr::from((Ipv4Addr::LOCALHOST, port))).map_err(|error| match error.kind() {
        ErrorKind::AddrInUse => anyhow!(
            "port {port} is taken by another program; stop that one or try `cargo xtask serve --port {}`",
            neighbour(port)
        ),
        ErrorKind::PermissionDenied => {
            anyhow!("port {port} is reserved for the system; try `cargo xtask serve --port {USUAL_PORT}`")
        }
        _ => anyhow!("cannot listen on port {port}: {error}"),
    })
}

/// The next port up that is free now.
fn neighbour(port: u16) -> u16 {
    let free = |candidate: &u16| TcpListener::bind((Ipv4Addr::LOCALHOST, *candidate)).is_ok();
    (port.saturating_add(1)..=u16::MAX)
        .take(50)
        .find(free)
        .unwrap_or(0)
}

/// Hands out the files of `folder` until the process ends.
pub fn serve_folder(listener: TcpListener, folder: &Path) -> anyhow::Result<()> {
    listener.set_nonblocking(true)?;
    let files = ServeDir::new(folder).precompressed_br().precompressed_gzip();
    let ask_again =
        SetResponseHeaderLayer::overriding(header::CACHE_CONTROL, HeaderValue::from_static("no-cache"));
    let router = Router::new().fallback_service(files).layer(ask_again);
    let runtime = tokio::runtime::Builder::new_current_thread()
        .enable_io()
        .build()?;
    runtime
        .block_on(async { axum::serve(tokio::net::TcpListener::from_std(listener)?, router).await })
        .context("the server stopped")
}
