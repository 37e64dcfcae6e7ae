//! Layouts kept in this browser, in IndexedDB: the text of the layout file under a name.

use std::pin::pin;
use std::time::Duration;

use futures_util::future::{Either, select};
use gloo::timers::future::sleep;
use idb::{Database, DatabaseEvent as _, Factory, ObjectStoreParams, Query, TransactionMode};
use wasm_bindgen::JsValue;

const DATABASE: &str = "layshaft";
const VERSION: u32 = 1;
const LAYOUTS: &str = "layouts";
/// The name under which the layout on the bench is kept.
const BENCH: &str = "bench";

/// How long the browser may take to open its store. It can take for ever: a page that was left while it made the store
/// and is kept frozen for the way back holds the store shut.
const PATIENCE: Duration = Duration::from_millis(1500);

/// The browser keeps nothing for this page: no store in private windows, no room left, or no answer.
#[derive(Debug)]
pub struct NoStore;

impl From<idb::Error> for NoStore {
    fn from(_: idb::Error) -> Self {
        Self
    }
}

/// Keeps the text of the layout on the bench.
///
/// # Errors
/// [`NoStore`].
pub async fn keep_bench(text: &str) -> Result<(), NoStore> {
    let database = open().await?;
    let transaction = database.transaction(&[LAYOUTS], TransactionMode::ReadWrite)?;
    let layouts = transaction.object_store(LAYOUTS)?;
    layouts
        .put(&JsValue::from_str(text), Some(&JsValue::from_str(BENCH)))?
        .await?;
    transaction.commit()?.await?;
    database.close();
    Ok(())
}

/// The text of the layout that was on the bench when the page was last open; none on a first visit.
///
/// # Errors
/// [`NoStore`].
pub async fn bench() -> Result<Option<String>, NoStore> {
    let database = open().await?;
    let transaction = database.transaction(&[LAYOUTS], TransactionMode::ReadOnly)?;
    let layouts = transaction.object_store(LAYOUTS)?;
    let kept = layouts.get(Query::Key(JsValue::from_str(BENCH)))?.await?;
    database.close();
    Ok(kept.and_then(|value| value.as_string()))
}

async fn open() -> Result<Database, NoStore> {
    let mut request = Factory::new()?.open(DATABASE, Some(VERSION))?;
    request.on_upgrade_needed(|event| {
        // A refusal shows as an error of the first transaction, which every caller handles.
        if let Ok(database) = event.database() {
            let _ = database.create_object_store(LAYOUTS, ObjectStoreParams::new());
        }
    });
    match select(pin!(request.into_future()), pin!(sleep(PATIENCE))).await {
        Either::Left((opened, _)) => Ok(opened?),
        Either::Right(_) => Err(NoStore),
    }
}
