// Forty inputs of one kind, each begun a while after the last was drawn.
let picture = document.querySelector('svg.bench');
if (still) {
    // What is left has no program behind it.
    const copy = picture.cloneNode(true);
    picture.replaceWith(copy);
    picture = copy;
}
const box = picture.getBoundingClientRect(), took = [];
const middle = shape => { const at = shape.getBoundingClientRect(); return [at.x + at.width / 2, at.y + at.height / 2]; };
const inside = ([x, y]) => x > box.x + 60 && x < box.right - 60 && y > box.y + 60 && y < box.bottom - 60;
const shafts = [...picture.querySelectorAll('.shaft, .drawn')].filter(shape => inside(middle(shape)));
const shaft = shafts[shafts.length >> 1], [x, y] = middle(shaft);
let last = 0;
const pointAt = (kind, [clientX, clientY]) => picture.dispatchEvent(new PointerEvent(kind, { bubbles: true, cancelable: true, pointerId: 1,
    isPrimary: true, pointerType: 'mouse', button: kind === 'pointermove' ? -1 : 0, buttons: kind === 'pointerup' ? 0 : 1, clientX, clientY }));
const point = (kind, dx) => pointAt(kind, [x + dx, y + dx / 2]);
const typed = () => document.querySelector('.inline-editor input');
const own = {
    pan: n => picture.dispatchEvent(new WheelEvent('wheel', { bubbles: true, cancelable: true, deltaX: n % 40 < 20 ? 7 : -7, deltaY: 3,
        clientX: x, clientY: y })),
    drag: n => point('pointermove', last = 8 + n * 2),
    edit: n => {
        const field = typed();
        Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set.call(field, String(12 + n % 9));
        field.dispatchEvent(new InputEvent('input', { bubbles: true }));
    },
};
const view = picture.viewBox.baseVal;
const plain = {
    pan: n => picture.setAttribute('viewBox', `${view.x + (n % 40 < 20 ? 7 : -7)} ${view.y} ${view.width} ${view.height}`),
    drag: n => shaft.setAttribute('transform', `translate(${n * 2} ${n})`),
    edit: n => picture.querySelector('.label text').lastChild.textContent = String(12 + n % 9),
};
const changed = new Set();
let most = 0;
const observer = new MutationObserver(records => records.forEach(record => changed.add(record.target)));
observer.observe(picture.parentElement, { subtree: true, childList: true, attributes: true, characterData: true });
window.paced = null;
if (work === 'drag' && !still) point('pointerdown', 0);
if (work === 'edit' && !still) {
    const numbers = [...picture.querySelectorAll('.label .edit')].filter(shape => inside(middle(shape)));
    const number = middle(numbers[numbers.length >> 1]);
    ['pointerdown', 'pointerup'].forEach(kind => pointAt(kind, number));
}
const step = n => {
    changed.clear();
    const began = performance.now();
    (still ? plain : own)[work](n);
    requestAnimationFrame(() => setTimeout(() => {
        took.push(performance.now() - began);
        most = Math.max(most, changed.size);
        if (n < 39) return setTimeout(step, 20, n + 1);
        observer.disconnect();
        if (work === 'drag' && !still) point('pointerup', last);
        window.paced = { took, changed: most };
    }));
};
// A field takes a while to open.
const begin = n => work !== 'edit' || still || typed() || n > 100 ? setTimeout(step, 200, 0) : setTimeout(begin, 50, n + 1);
begin(0);
