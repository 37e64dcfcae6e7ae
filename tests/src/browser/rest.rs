//! Scripts that wait in the page until it has come to rest: what still moves can't be met, by a hand or by a test.

/// What they share: frames, and whether the drawing fits its place.
const SHARED: &str = include_str!("rest.js");

/// The body of a script that waits until the drawing keeps its place. It is fitted anew whenever what stands around it has
/// found its size, which it does when the fonts have come; they are asked for only when the first text is laid out.
pub fn of_the_drawing() -> String {
    format!(
        "{SHARED}
        const place = () => {{
            const bench = document.getElementById('bench'), box = bench?.getBoundingClientRect();
            return [bench?.getAttribute('viewBox'), box?.x, box?.y, box?.width, box?.height, document.fonts.status].join();
        }};
        return (async () => {{ await frame(); await frame(); await document.fonts.ready; return same(place, 6); }})()"
    )
}

/// A function that brings the element it is called on into view and gives the middle of its box, its area, and whether
/// it rests.
pub fn of_a_thing() -> String {
    format!(
        "async function() {{
            {SHARED}
            const shape = this.nodeType === Node.TEXT_NODE ? this.parentElement : this;
            // Again and again: what comes in above it meanwhile moves it out of view.
            const box = () => {{
                shape.scrollIntoView({{ block: 'nearest', inline: 'nearest', behavior: 'instant' }});
                return shape.getBoundingClientRect();
            }};
            const place = () => {{
                const {{ x, y, width, height }} = box();
                return [x, y, width, height].map(Math.round).join();
            }};
            const rests = await same(place, 4), {{ x, y, width, height }} = box();
            return [x + width / 2, y + height / 2, width * height, rests];
        }}"
    )
}

/// The body of a script that waits for two frames, by which time the focus has gone where it was sent.
pub fn of_the_focus() -> String {
    format!("{SHARED} return (async () => {{ await frame(); await frame(); }})()")
}
