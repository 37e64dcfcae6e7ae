// When the page has come to rest. Frames count, not milliseconds: a busy engine draws few of them, and what stands still
// between two is not yet at rest.

/** The next frame. A page in the background draws none, so that a clock ticks too. */
const frame = () => new Promise(done => {
    const late = setTimeout(done, 500);
    requestAnimationFrame(() => setTimeout(() => { clearTimeout(late); done(); }, 0));
});

/** Whether the drawing has been laid out for the size that it has: the page is told of a new size a while after. */
const fitted = () => {
    const bench = document.getElementById('bench'), box = bench?.getBoundingClientRect();
    const [, , width, height] = (bench?.getAttribute('viewBox') ?? '').split(/[ ,]+/).map(Number);
    return !(width && height && box.width && box.height) || Math.abs((width / height) * (box.height / box.width) - 1) < 0.01;
};

/** Waits until what is looked at is the same for so many frames; whether it came to that. */
const same = async (look, frames) => {
    let before = look(), kept = 0;
    for (let count = 0; count < 300 && kept < frames; count += 1) {
        await frame();
        const now = look();
        kept = now === before && fitted() ? kept + 1 : 0;
        before = now;
    }
    return kept >= frames;
};
