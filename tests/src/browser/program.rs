//! Programs that a journey starts and ends with itself: a driver that prints which port it took, a screen for it.

use std::io::{BufRead, BufReader, Read};
use std::path::PathBuf;
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use anyhow::{Context, bail};
use tempfile::TempDir;
use thirtyfour::WebDriver;

/// A browser that has started. The order of the fields is the order of ending: the session first, which ends the
/// browser, then the driver, its screen, and the profile on disk.
pub struct Started {
    /// The session that commands go to.
    pub session: WebDriver,
    pub(super) _driver: Program,
    pub(super) _screen: Option<Program>,
    pub(super) _profile: TempDir,
}

/// Where a program is: as the variable says, else where Debian puts it.
pub fn place(variable: &str, usual: &str) -> PathBuf {
    std::env::var_os(variable).map_or_else(|| PathBuf::from(usual), PathBuf::from)
}

/// A child of this process that ends with its owner.
pub struct Program {
    child: Child,
    /// What it printed that was waited for.
    pub said: String,
}

impl Program {
    /// Starts it and waits until a line of its output has what `read` looks for.
    pub fn start(command: &mut Command, read: impl Fn(&str) -> Option<String>) -> anyhow::Result<Self> {
        let name = command.get_program().to_string_lossy().into_owned();
        command
            .stdin(Stdio::null())
            .stdout(Stdio::piped())
            .stderr(Stdio::null());
        let mut child = command
            .spawn()
            .with_context(|| format!("cannot start {name}; `cargo xtask test` says what to install"))?;
        let printed = child.stdout.take().expect("its output is piped");
        match wait_for(BufReader::new(printed), read) {
            Some(said) => Ok(Self { child, said }),
            None => {
                let _ = child.kill();
                let _ = child.wait();
                bail!("{name} ended before it was ready")
            }
        }
    }

    /// Starts one that prints nothing worth waiting for.
    pub fn start_silently(command: &mut Command) -> anyhow::Result<Self> {
        let name = command.get_program().to_string_lossy().into_owned();
        let child = command
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .with_context(|| format!("cannot start {name}; `cargo xtask test` says what to install"))?;
        Ok(Self {
            child,
            said: String::new(),
        })
    }
}

impl Drop for Program {
    fn drop(&mut self) {
        // Fails only if it has ended already, which is what is wanted.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

fn wait_for<T>(mut lines: BufReader<T>, read: impl Fn(&str) -> Option<String>) -> Option<String>
where
    T: Read + Send + 'static,
{
    let mut line = String::new();
    while lines.read_line(&mut line).ok()? > 0 {
        if let Some(said) = read(line.trim_end()) {
            // Someone must go on reading, or the program stops when the pipe is full.
            std::thread::spawn(move || lines.read_to_end(&mut Vec::new()));
            return Some(said);
        }
        line.clear();
    }
    None
}

/// A port that nothing listens on now, for drivers that do not say which they took.
pub fn free_port() -> anyhow::Result<u16> {
    let listener = std::net::TcpListener::bind((std::net::Ipv4Addr::LOCALHOST, 0))?;
    Ok(listener.local_addr()?.port())
}

/// Waits until a driver answers at its port, at most ten seconds.
pub async fn answers(port: u16) -> anyhow::Result<()> {
    for _ in 0..200 {
        if tokio::net::TcpStream::connect((std::net::Ipv4Addr::LOCALHOST, port))
            .await
            .is_ok()
        {
            return Ok(());
        }
        tokio::time::sleep(Duration::from_millis(50)).await;
    }
    bail!("nothing answers at port {port}")
}
