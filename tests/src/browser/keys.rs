//! Key names as a person writes them, `Ctrl+Z` or `Tab`, and how they are sent.

use std::time::Duration;

use anyhow::bail;
use thirtyfour::{Key, WebDriver};

/// Presses keys one after another; each may be a combination such as `Ctrl+Shift+Z`. Names are separated by spaces.
pub async fn press(session: &WebDriver, names: &str) -> anyhow::Result<()> {
    for combination in names.split_whitespace() {
        press_one(session, combination).await?;
    }
    Ok(())
}

async fn press_one(session: &WebDriver, combination: &str) -> anyhow::Result<()> {
    let mut parts: Vec<char> = parts(combination)?;
    let last = parts.pop().expect("a combination has at least one key");
    let mut chain = session.action_chain_with_delay(Some(Duration::ZERO), Some(Duration::ZERO));
    for modifier in &parts {
        chain = chain.key_down(*modifier);
    }
    chain = chain.key_down(last).key_up(last);
    for modifier in parts.iter().rev() {
        chain = chain.key_up(*modifier);
    }
    chain.perform().await?;
    Ok(())
}

/// The keys of a combination. A lone `+` is the plus key.
fn parts(combination: &str) -> anyhow::Result<Vec<char>> {
    match combination.strip_suffix("++") {
        Some(modifiers) => modifiers.split('+').chain(["+"]).map(key).collect(),
        None if combination == "+" => Ok(vec!['+']),
        None => combination.split('+').map(key).collect(),
    }
}

fn key(name: &str) -> anyhow::Result<char> {
    let mut characters = name.chars();
    if let (Some(single), None) = (characters.next(), characters.next()) {
        return Ok(single.to_ascii_lowercase());
    }
    let named = match name {
        "Ctrl" => Key::Control,
        "Shift" => Key::Shift,
        "Alt" => Key::Alt,
        "Enter" => Key::Enter,
        "Esc" => Key::Escape,
        "Tab" => Key::Tab,
        "Space" => Key::Space,
        "Backspace" => Key::Backspace,
        "Delete" => Key::Delete,
        "Home" => Key::Home,
        "End" => Key::End,
        "Left" => Key::Left,
        "Right" => Key::Right,
        "Up" => Key::Up,
        "Down" => Key::Down,
        "PageUp" => Key::PageUp,
        "PageDown" => Key::PageDown,
        "F1" => Key::F1,
        "F2" => Key::F2,
        "F10" => Key::F10,
        unknown => bail!("there is no key named “{unknown}”"),
    };
    Ok(named.value())
}
