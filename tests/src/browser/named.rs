//! Finds things as assistive technology does: by role and spoken name. Chromium is asked for its accessibility tree; the
//! drivers of the other engines give none, so that there a script (`named.js`) works out the same from the document.

use std::collections::BTreeMap;

use anyhow::{Context, anyhow, ensure};
use serde_json::{Value, json};
use thirtyfour::WebDriver;

use super::engine::Engine;
use super::rest;

/// Works out the list in the page.
const LIST: &str = include_str!("named.js");

/// One thing on the page, as assistive technology is told of it.
#[derive(Clone, Debug)]
pub struct Named {
    /// Its role: `button`, `heading`, `textbox`, …
    pub role: String,
    /// Its spoken name.
    pub name: String,
    place: Place,
}

/// How the thing is found again.
#[derive(Clone, Copy, Debug)]
enum Place {
    /// Chromium's number of the node.
    Node(u64),
    /// The number that the script gave it.
    Number(u64),
}

/// All things with a role, in reading order.
pub async fn tree(session: &WebDriver, engine: Engine) -> anyhow::Result<Vec<Named>> {
    match engine {
        Engine::Chromium => told_tree(session).await,
        Engine::WebKit | Engine::Firefox => list(session).await,
    }
}

/// The list that the script makes.
pub async fn list(session: &WebDriver) -> anyhow::Result<Vec<Named>> {
    let answer = session.execute(LIST, Vec::new()).await?.json().clone();
    let rows = answer.as_array().context("the script gives a list")?;
    Ok(rows.iter().filter_map(listed).collect())
}

fn listed(row: &Value) -> Option<Named> {
    Some(Named {
        role: row[0].as_str()?.to_owned(),
        name: row[1].as_str()?.to_owned(),
        place: Place::Number(row[2].as_u64()?),
    })
}

/// The tree of Chromium itself.
async fn told_tree(session: &WebDriver) -> anyhow::Result<Vec<Named>> {
    let answer = session
        .cdp()
        .send_raw("Accessibility.getFullAXTree", json!({}))
        .await?;
    let nodes = answer["nodes"]
        .as_array()
        .context("the browser gives its accessibility tree")?;
    let by_id: BTreeMap<_, _> = nodes.iter().map(|node| (node["nodeId"].as_str(), node)).collect();
    // The browser lists the tree level by level; reading goes branch by branch.
    let mut open: Vec<&Value> = nodes.first().into_iter().collect();
    let mut read = Vec::new();
    while let Some(node) = open.pop() {
        if node["ignored"] != json!(true) {
            read.extend(named(node));
        }
        let children = node["childIds"].as_array().into_iter().flatten();
        open.extend(children.rev().filter_map(|id| by_id.get(&id.as_str())));
    }
    Ok(read)
}

fn named(node: &Value) -> Option<Named> {
    Some(Named {
        role: node["role"]["value"].as_str()?.to_owned(),
        name: node["name"]["value"].as_str().unwrap_or_default().to_owned(),
        place: Place::Node(node["backendDOMNodeId"].as_u64()?),
    })
}

/// The thing of this role with this name; failing that, the only one whose name contains it.
pub fn choose<'a>(tree: &'a [Named], role: &str, name: &str) -> anyhow::Result<&'a Named> {
    let of_role = || tree.iter().filter(|thing| thing.role == role);
    if let Some(exact) = of_role().find(|thing| thing.name == name) {
        return Ok(exact);
    }
    let near: Vec<_> = of_role().filter(|thing| thing.name.contains(name)).collect();
    match near[..] {
        [only] => Ok(only),
        _ => Err(anyhow!(
            "no {role} is named “{name}”; there are: {}",
            spelt(of_role())
        )),
    }
}

fn spelt<'a>(things: impl Iterator<Item = &'a Named>) -> String {
    let names: Vec<_> = things.map(|thing| format!("“{}”", thing.name)).collect();
    if names.is_empty() {
        "none of that role".to_owned()
    } else {
        names.join(", ")
    }
}

impl Named {
    /// Brings it into view, waits until it stays where it is from frame to frame, and gives the middle of its box, in pixels
    /// of the viewport: what still moves can't be met, by a hand or by a test.
    pub async fn middle(&self, session: &WebDriver) -> anyhow::Result<(i64, i64)> {
        let found = self.call(session, &rest::of_a_thing()).await?;
        let number = |index: usize| found[index].as_f64().context("a box has numbers");
        ensure!(
            number(2)? > 0.0,
            "{} “{}” has no size on the page",
            self.role,
            self.name
        );
        ensure!(
            found[3] == true,
            "{} “{}” does not come to rest",
            self.role,
            self.name
        );
        Ok((number(0)?.round() as i64, number(1)?.round() as i64))
    }

    /// Its text as shown.
    pub async fn text(&self, session: &WebDriver) -> anyhow::Result<String> {
        let text = self
            .call(
                session,
                "function() { return this.innerText ?? this.textContent }",
            )
            .await?;
        Ok(text.as_str().unwrap_or_default().to_owned())
    }

    /// The value of a field.
    pub async fn value(&self, session: &WebDriver) -> anyhow::Result<String> {
        let value = self.call(session, "function() { return this.value }").await?;
        Ok(value.as_str().unwrap_or_default().to_owned())
    }

    /// Gives it the focus, as a script may.
    pub async fn focus(&self, session: &WebDriver) -> anyhow::Result<()> {
        self.call(session, "function() { this.focus() }").await.map(drop)
    }

    /// Calls a JavaScript function with this element as `this`.
    async fn call(&self, session: &WebDriver, function: &str) -> anyhow::Result<Value> {
        match self.place {
            Place::Node(node) => call_on_node(session, node, function).await,
            Place::Number(number) => {
                let body = format!("return ({function}).call(window.layshaftKnown.things[{number}])");
                Ok(session.execute(body, Vec::new()).await?.json().clone())
            }
        }
    }
}

/// The same through Chromium's developer tools.
async fn call_on_node(session: &WebDriver, node: u64, function: &str) -> anyhow::Result<Value> {
    let devtools = session.cdp();
    let object = devtools
        .send_raw("DOM.resolveNode", json!({ "backendNodeId": node }))
        .await?;
    let call = json!({
        "objectId": object["object"]["objectId"],
        "functionDeclaration": function,
        "returnByValue": true,
        "awaitPromise": true,
    });
    let mut answer = devtools.send_raw("Runtime.callFunctionOn", call).await?;
    ensure!(
        answer["exceptionDetails"].is_null(),
        "the page refused: {}",
        answer["exceptionDetails"]
    );
    Ok(answer["result"]["value"].take())
}
