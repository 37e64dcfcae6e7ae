//! The gates that no other tool has: how files begin, what stands at the top, what is never mentioned, where published
//! cases come from, whether the developers' guide names what there is, and the layers.
//!
//! Every fault is reported, not only the first.

mod cases;
mod files;
mod guide;
mod top;

use anyhow::ensure;

use crate::layers::Packages;

/// Looks at everything and fails with all faults, one line each.
pub fn tidy() -> anyhow::Result<()> {
    let files = files::all()?;
    let mut faults = top::faults()?;
    faults.extend(files.iter().flat_map(files::faults));
    faults.extend(files.iter().flat_map(cases::faults));
    faults.extend(guide::faults(&files)?);
    faults.extend(Packages::read()?.faults());
    faults.iter().for_each(|fault| eprintln!("  {fault}"));
    ensure!(faults.is_empty(), "{} things are untidy (above)", faults.len());
    eprintln!("  {} files looked at", files.len());
    Ok(())
}
