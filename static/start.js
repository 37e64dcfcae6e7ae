// Starts the program, and stands in for it when it stops.
//
// After a trap the program's memory is gone, so what must survive it is plain DOM: the text of the last good layout
// lies in <template id="kept-layout"> and this script, which shares nothing with the program, offers it for saving.

const REASONS = {
  stopped: 'Layshaft stopped because of a fault of its own.',
  missing: 'Layshaft could not be loaded.',
};

let recovered = false;

function element(name, attributes, ...children) {
  const made = Object.assign(document.createElement(name), attributes);
  made.append(...children);
  return made;
}

function keptText() {
  return document.getElementById('kept-layout')?.textContent ?? '';
}

function keptAsFile(text) {
  const file = new Blob([text], { type: 'application/json' });
  return element('a', { className: 'button', href: URL.createObjectURL(file), download: 'kept.layshaft.json' }, 'Save the layout as a file');
}

function recover(reason, detail) {
  if (recovered) return;
  recovered = true;
  console.error(detail || REASONS[reason]);
  const text = keptText();
  const again = element('button', { className: 'button primary' }, 'Load the page again');
  again.addEventListener('click', () => location.reload());
  const actions = element('p', { className: 'recovery-actions' }, again);
  if (text) actions.append(keptAsFile(text));
  actions.append(element('a', { className: 'button', href: '?bench=empty' }, 'Start with an empty bench'));

  const sheet = element('main', { className: 'recovery' },
    element('h1', {}, REASONS[reason]),
    element('p', {}, text
      ? 'Your layout is safe: it is below, and loading the page again brings it back to the bench.'
      : 'Load the page again. If that does not help, check your connection and try another browser.'),
    actions);
  if (text) {
    const field = element('textarea', { readOnly: true, value: text, rows: 12, id: 'kept-text' });
    sheet.append(element('label', { htmlFor: 'kept-text' }, 'The layout as it was last kept'), field);
  }
  if (detail) sheet.append(element('details', {}, element('summary', {}, 'What happened, for a report'), element('pre', {}, detail)));
  document.body.replaceChildren(sheet);
  again.focus();
}

function isTrap(error) {
  return error instanceof WebAssembly.RuntimeError;
}

addEventListener('layshaft-stopped', (event) => recover('stopped', event.detail));
addEventListener('error', (event) => { if (isTrap(event.error)) recover('stopped', event.error.message); });
addEventListener('unhandledrejection', (event) => { if (isTrap(event.reason)) recover('stopped', event.reason.message); });

try {
  const { default: load } = await import('./%APP_JS%');
  await load();
} catch (error) {
  recover(isTrap(error) ? 'stopped' : 'missing', String(error));
}
