// What is wrong with where things lie: the page scrolls sideways, a control is cut off or covered, or too small to hit.
const coarse = matchMedia('(pointer: coarse)').matches, least = coarse ? 44 : 24;
const name = e => `${e.localName}.${[...e.classList].join('.')} “${(e.ariaLabel || e.textContent || '').trim().slice(0, 30)}”`;
const faults = [];
// Without the width of a scroll bar.
const wider = document.documentElement.scrollWidth - document.documentElement.clientWidth;
if (wider > 0) faults.push(`the page is ${wider} px wider than the screen`);

// Scrolls by itself in this direction somewhere above, so that nothing is lost.
const scrolls = (e, way) => {
    for (let up = e.parentElement; up; up = up.parentElement) {
        if (/auto|scroll/.test(getComputedStyle(up)[way])) return true;
    }
    return false;
};
// Scrolled out of sight within something.
const clipped = (e, x, y) => {
    for (let up = e.parentElement; up; up = up.parentElement) {
        const box = up.getBoundingClientRect();
        if (getComputedStyle(up).overflow !== "visible" && (x < box.left || x >= box.right || y < box.top || y >= box.bottom)) return true;
    }
    return false;
};
const controls = [...document.querySelectorAll('button, a[href], input:not([type=hidden]), select, textarea, summary, [role=tab], [role=slider]')]
    .filter(e => e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && !(e instanceof SVGElement) && !e.closest('[inert]'));
for (const e of controls) {
    const box = e.getBoundingClientRect();
    if (box.width === 0 || getComputedStyle(e).clipPath !== 'none' && box.width < 3) continue;
    if ((box.left < -1 || box.right > innerWidth + 1) && !scrolls(e, 'overflowX')) faults.push(`${name(e)} is cut off at ${Math.round(box.left)} to ${Math.round(box.right)}`);
    // Who presses a label presses its control.
    const label = /checkbox|radio/.test(e.type) ? e.closest('label')?.getBoundingClientRect() : null;
    // A shape laid around a small mark, without being seen, is pressed like the mark.
    const around = getComputedStyle(e, '::after'), wide = around.position === 'absolute' && around.content !== 'none';
    const width = Math.max(box.width, label?.width ?? 0, wide ? parseFloat(around.width) || 0 : 0);
    const height = Math.max(box.height, label?.height ?? 0, wide ? parseFloat(around.height) || 0 : 0);
    // A link inside a sentence is as high as its line.
    const inline = e.localName === 'a' && getComputedStyle(e).display === 'inline';
    if (!inline && (width < least - 0.5 || height < least - 0.5)) faults.push(`${name(e)} is ${width.toFixed(1)} by ${height.toFixed(1)} px, less than ${least}`);
    const x = box.x + box.width / 2, y = box.y + box.height / 2;
    if (x < 0 || y < 0 || x >= innerWidth || y >= innerHeight) continue;
    if (clipped(e, x, y)) continue;
    const top = document.elementFromPoint(x, y);
    // The tray of a small screen comes up over the sheet, and goes again.
    if (top && !top.closest('.tray.is-open, [role=menu]') && !e.contains(top) && !top.contains(e) && controls.some(other => other !== e && other.contains(top))) faults.push(`${name(e)} is covered by ${name(top)}`);
}
return [...new Set(faults)];
