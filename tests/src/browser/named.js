// What assistive technology is told of a page, worked out from its document by the rules of HTML-AAM, SVG-AAM and
// accname 1.2 as far as this page needs them. Chromium gives its own tree; a journey checks that both say the same.
const LANDMARKS = { main: 'main', nav: 'navigation', aside: 'complementary', form: 'form', search: 'search' };
const PLAIN = { button: 'button', summary: 'DisclosureTriangle', h1: 'heading', h2: 'heading', h3: 'heading', h4: 'heading',
    h5: 'heading', h6: 'heading', textarea: 'textbox', option: 'option', table: 'table', tr: 'row', td: 'cell', img: 'image',
    progress: 'progressbar', meter: 'meter', ul: 'list', ol: 'list', li: 'listitem', p: 'paragraph', details: 'group',
    fieldset: 'group', output: 'status', dialog: 'dialog', figure: 'figure', dl: 'DescriptionList', hr: 'separator' };
const INPUTS = { search: 'searchbox', checkbox: 'checkbox', radio: 'radio', range: 'slider', number: 'spinbutton',
    button: 'button', submit: 'button', file: 'button' };
const NAMED_BY_CONTENT = new Set(['button', 'link', 'tab', 'option', 'heading', 'cell', 'columnheader', 'rowheader', 'checkbox',
    'radio', 'switch', 'DisclosureTriangle', 'menuitem', 'menuitemcheckbox', 'menuitemradio', 'treeitem', 'tooltip', 'row', 'gridcell']);

function role(element) {
    const given = element.getAttribute('role')?.trim().split(/\s+/)[0];
    if (given) return given === 'img' ? 'image' : given;
    const tag = element.localName;
    if (tag === 'a') return element.hasAttribute('href') ? 'link' : '';
    if (tag === 'input') return element.type === 'hidden' ? '' : INPUTS[element.type] ?? (element.list ? 'combobox' : 'textbox');
    if (tag === 'select') return element.multiple || element.size > 1 ? 'listbox' : 'combobox';
    if (tag === 'th') return element.scope === 'row' || element.scope === 'rowgroup' ? 'rowheader' : 'columnheader';
    if (tag === 'section') return label(element) ? 'region' : '';
    if (tag === 'header') return element.closest('main, article, aside, nav, section') ? '' : 'banner';
    if (tag === 'footer') return element.closest('main, article, aside, nav, section') ? '' : 'contentinfo';
    return LANDMARKS[tag] ?? PLAIN[tag] ?? '';
}

function label(element) {
    const by = element.getAttribute('aria-labelledby');
    if (by) {
        const said = by.trim().split(/\s+/).map(id => document.getElementById(id)).filter(Boolean)
            .map(other => other.getAttribute('aria-label') || content(other));
        if (said.join('')) return tidy(said.join(' '));
    }
    return element.getAttribute('aria-label')?.trim() ?? '';
}

function tidy(text) {
    return text.replace(/[ \t\r\n\f]+/g, ' ').trim();
}

function is_shown(element) {
    if (element.closest('[aria-hidden=true]')) return false;
    if (getComputedStyle(element).display === 'contents') return element.parentElement === null || is_shown(element.parentElement);
    return element.checkVisibility({ visibilityProperty: true, contentVisibilityAuto: true });
}

function content(element) {
    let text = '';
    for (const child of element.childNodes) {
        if (child.nodeType === Node.TEXT_NODE) text += child.data;
        if (child.nodeType !== Node.ELEMENT_NODE || child.getAttribute('aria-hidden') === 'true') continue;
        // A label says nothing of what its own control holds.
        if (/^(input|select|textarea)$/.test(child.localName)) continue;
        const style = getComputedStyle(child);
        if (style.display === 'none' || style.visibility === 'hidden') continue;
        const inner = label(child) || child.alt || svg_title(child) || (child.localName === 'br' ? ' ' : content(child));
        text += /^(inline|contents)/.test(style.display) && style.display !== 'inline-block' ? inner : ` ${inner} `;
    }
    return text;
}

function svg_title(element) {
    if (!(element instanceof SVGElement)) return '';
    return [...element.children].find(child => child.localName === 'title')?.textContent ?? '';
}

function name(element, its_role) {
    const said = label(element);
    if (said) return said;
    const tag = element.localName;
    if (element.labels?.length) return tidy([...element.labels].map(content).join(' '));
    if (tag === 'input' || tag === 'textarea') return tidy(element.title || element.placeholder || '');
    if (tag === 'img') return tidy(element.alt || element.title || '');
    const first = { table: 'caption', fieldset: 'legend', figure: 'figcaption' }[tag];
    const heading = first && [...element.children].find(child => child.localName === first);
    if (heading) return tidy(content(heading));
    if (svg_title(element)) return tidy(svg_title(element));
    if (NAMED_BY_CONTENT.has(its_role)) {
        const text = tidy(content(element));
        if (text) return text;
    }
    return tidy(element.getAttribute('title') ?? '');
}

// Things keep the number they got first, so that a later call finds the same one.
const known = (window.layshaftKnown ??= { things: [], numbers: new WeakMap() });
function number(element) {
    if (!known.numbers.has(element)) {
        known.numbers.set(element, known.things.length);
        known.things.push(element);
    }
    return known.numbers.get(element);
}

const found = [];
for (const element of document.body.querySelectorAll('*')) {
    const its_role = role(element);
    if (!its_role || its_role === 'presentation' || its_role === 'none' || !is_shown(element)) continue;
    found.push([its_role, name(element, its_role), number(element)]);
}
return found;
