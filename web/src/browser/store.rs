//! Layouts kept in this browser, in IndexedDB: the text of the layout file under a name.

use idb::{Database, DatabaseEvent as _, Factory, ObjectStoreParams, Query, TransactionMode};
use wasm_bindgen::JsValue;

const DATABASE: &str = "layshaft";
const VERSION: u32 = 1;
const LAYOUTS: &str = "layouts";
/// The name under which the layout on the bench is kept.
const BENCH: &str = "bench";

/// Keeps the text of the layout on the bench.
///
/// # Errors
/// Whatever the browser refuses: no store in private windows, no room left.
pub async fn keep_bench(text: &str) -> Result<(), idb::Error> {
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
/// Whatever the browser refuses.
pub async fn bench() -> Result<Option<String>, idb::Error> {
    let database = open().await?;
    let transaction = database.transaction(&[LAYOUTS], TransactionMode::ReadOnly)?;
    let layouts = transaction.object_store(LAYOUTS)?;
    let kept = layouts.get(Query::Key(JsValue::from_str(BENCH)))?.await?;
    database.close();
    Ok(kept.and_then(|value| value.as_string()))
}

async fn open() -> Result<Database, idb::Error> {
    let mut request = Factory::new()?.open(DATABASE, Some(VERSION))?;
    request.on_upgrade_needed(|event| {
        // A refusal shows as an error of the first transaction, which every caller handles.
        if let Ok(database) = event.database() {
            let _ = database.create_object_store(LAYOUTS, ObjectStoreParams::new());
        }
    });
    request.await
}
