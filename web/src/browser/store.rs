//! Layouts kept in this browser, in IndexedDB: a record for each, and a note of what lies on the bench.
//!
//! Version 1 had one store with the text of the one layout on the bench. Version 2 keeps that store for the note and adds
//! one for records; what the old text becomes is the editor's to say.

use std::cell::RefCell;
use std::pin::pin;
use std::rc::Rc;
use std::time::Duration;

use futures_util::future::{Either, select};
use gloo::events::EventListener;
use gloo::timers::future::sleep;
use idb::{
    Database, DatabaseEvent as _, Factory, ObjectStore, ObjectStoreParams, Query, Transaction,
    TransactionMode,
};
use layshaft_editor::ShelfInput;
use layshaft_editor::shelf::Record;
use wasm_bindgen::JsValue;
use wasm_bindgen_futures::spawn_local;
use web_sys::IdbTransaction;

use super::{now_ms, window};

const DATABASE: &str = "layshaft";
const VERSION: u32 = 2;
/// The store of the note.
const LAYOUTS: &str = "layouts";
/// The store of records.
const SHELF: &str = "shelf";
/// The name under which the note is kept, here and for each tab by itself.
const BENCH: &str = "bench";

/// How long the browser may take to open its store. It can take for ever: a page that was left while it made the store
/// and is kept frozen for the way back holds the store shut.
const PATIENCE: Duration = Duration::from_millis(1500);

thread_local! {
    /// Transactions that are under way.
    static UNDER_WAY: RefCell<Vec<IdbTransaction>> = const { RefCell::new(Vec::new()) };
}

/// A transaction that is under way for as long as this lives.
struct UnderWay(IdbTransaction);

impl Drop for UnderWay {
    fn drop(&mut self) {
        UNDER_WAY.with_borrow_mut(|all| all.retain(|other| *other != self.0));
    }
}

/// Gives up what is under way when the page is left. WebKit else keeps it open for ever, and with it the store shut for
/// every page that comes after. What was being written lies in the note of the tab.
pub fn end_with_the_page() {
    EventListener::new(&window(), "pagehide", |_| {
        for transaction in UNDER_WAY.take() {
            // One that is being completed can't be given up and need not be.
            let _ = transaction.abort();
        }
    })
    .forget();
}

/// Begins a transaction.
fn begin(
    database: &Database,
    stores: &[&str],
    mode: TransactionMode,
) -> Result<(Transaction, UnderWay), NoStore> {
    let inner = IdbTransaction::from(database.transaction(stores, mode)?);
    UNDER_WAY.with_borrow_mut(|all| all.push(inner.clone()));
    Ok((Transaction::from(inner.clone()), UnderWay(inner)))
}

/// The browser keeps nothing for this page: no store in private windows, no room left, or no answer.
#[derive(Debug)]
pub struct NoStore;

impl From<idb::Error> for NoStore {
    fn from(_: idb::Error) -> Self {
        Self
    }
}

/// All that is kept.
#[derive(Default)]
pub struct Kept {
    /// The records.
    pub records: Vec<Record>,
    /// What was noted of the bench.
    pub note: Option<String>,
}

/// All that is kept, unless the browser takes for ever to hand it over: the page opens without it then. A record that can't
/// be read any more is left where it is.
///
/// # Errors
/// [`NoStore`].
pub async fn read() -> Result<Kept, NoStore> {
    match select(Box::pin(read_all()), pin!(sleep(PATIENCE * 2))).await {
        Either::Left((kept, _)) => kept,
        Either::Right((_, reading)) => {
            // An answer that comes after all has to find somebody.
            spawn_local(async { drop(reading.await) });
            Err(NoStore)
        }
    }
}

async fn read_all() -> Result<Kept, NoStore> {
    let database = open().await?;
    let (transaction, _under_way) = begin(&database, &[LAYOUTS, SHELF], TransactionMode::ReadOnly)?;
    let note = transaction.object_store(LAYOUTS)?;
    let note = note.get(Query::Key(JsValue::from_str(BENCH)))?.await?;
    let records = transaction.object_store(SHELF)?.get_all(None, None)?.await?;
    database.close();
    let read = |value: &JsValue| Record::from_json(&value.as_string()?);
    Ok(Kept {
        records: records.iter().filter_map(read).collect(),
        note: note.and_then(|value| value.as_string()),
    })
}

/// One record, if it is there.
///
/// # Errors
/// [`NoStore`].
pub async fn record(id: &str) -> Result<Option<Record>, NoStore> {
    let database = open().await?;
    let (transaction, _under_way) = begin(&database, &[SHELF], TransactionMode::ReadOnly)?;
    let found = stored(&transaction.object_store(SHELF)?, id).await?;
    database.close();
    Ok(found)
}

/// Keeps a record unless another tab was first. Looking and writing are one transaction, so that nobody comes between.
///
/// # Errors
/// [`NoStore`].
pub async fn keep(record: Record) -> Result<ShelfInput, NoStore> {
    let database = open().await?;
    let (transaction, _under_way) = begin(&database, &[SHELF], TransactionMode::ReadWrite)?;
    let shelf = transaction.object_store(SHELF)?;
    let answer = match stored(&shelf, &record.id).await? {
        Some(stored) if !record.may_follow(Some(&stored)) => ShelfInput::Refused {
            stored: Box::new(stored),
            refused: Box::new(record),
        },
        stored => {
            let record = record.following(stored.as_ref(), now_ms());
            shelf
                .put(
                    &JsValue::from_str(&record.to_json()),
                    Some(&JsValue::from_str(&record.id)),
                )?
                .await?;
            ShelfInput::Kept(Box::new(record))
        }
    };
    transaction.commit()?.await?;
    database.close();
    Ok(answer)
}

/// Deletes a record.
///
/// # Errors
/// [`NoStore`].
pub async fn forget(id: &str) -> Result<(), NoStore> {
    let database = open().await?;
    let (transaction, _under_way) = begin(&database, &[SHELF], TransactionMode::ReadWrite)?;
    transaction
        .object_store(SHELF)?
        .delete(Query::Key(JsValue::from_str(id)))?
        .await?;
    transaction.commit()?.await?;
    database.close();
    Ok(())
}

/// Keeps the note of what lies on the bench.
///
/// # Errors
/// [`NoStore`].
pub async fn note(text: &str) -> Result<(), NoStore> {
    let database = open().await?;
    let (transaction, _under_way) = begin(&database, &[LAYOUTS], TransactionMode::ReadWrite)?;
    let layouts = transaction.object_store(LAYOUTS)?;
    layouts
        .put(&JsValue::from_str(text), Some(&JsValue::from_str(BENCH)))?
        .await?;
    transaction.commit()?.await?;
    database.close();
    Ok(())
}

async fn stored(shelf: &ObjectStore, id: &str) -> Result<Option<Record>, NoStore> {
    let found = shelf.get(Query::Key(JsValue::from_str(id)))?.await?;
    Ok(found.and_then(|value| Record::from_json(&value.as_string()?)))
}

async fn open() -> Result<Database, NoStore> {
    let mut request = Factory::new()?.open(DATABASE, Some(VERSION))?;
    request.on_upgrade_needed(|event| {
        // A refusal shows as an error of the first transaction, which every caller handles.
        if let Ok(database) = event.database() {
            let there = database.store_names();
            for name in [LAYOUTS, SHELF] {
                if !there.iter().any(|other| other == name) {
                    let _ = database.create_object_store(name, ObjectStoreParams::new());
                }
            }
        }
    });
    match select(pin!(request.into_future()), pin!(sleep(PATIENCE))).await {
        Either::Left((opened, _)) => Ok(opened?),
        Either::Right(_) => Err(NoStore),
    }
}

/// Notes for this tab alone what lies on its bench, so that a reload brings back its own and not another tab's.
pub fn note_for_tab(text: &str) {
    if let Ok(Some(storage)) = window().session_storage() {
        // Refused where there is no room; the note of all tabs then serves.
        let _ = storage
            .set_item(BENCH, text)
            .or_else(|_| storage.remove_item(BENCH));
    }
}

/// What was noted for this tab.
pub fn note_of_tab() -> Option<String> {
    window().session_storage().ok()??.get_item(BENCH).ok()?
}

/// A name for this tab that no other has had: the time and forty bits of chance.
pub fn new_tab_name() -> Rc<str> {
    let chance = js_sys::Math::random() * 1_099_511_627_776.0;
    format!("{:x}-{:x}", now_ms() as u64, chance as u64).into()
}

/// Asks the browser to keep what is kept even when room gets short. It may ask the person, so this is done only once there
/// is something to keep.
pub fn ask_to_persist() {
    let storage = window().navigator().storage();
    // Missing on pages that aren't served securely, though its binding is never null.
    if !storage.is_undefined() {
        let _ = storage.persist();
    }
}
