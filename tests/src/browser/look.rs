//! How a visitor's screen presents itself to the page: its size, its light, fingers or a mouse, motion or none.

/// Size of the page's window in CSS pixels, and whether it is touched or pointed at.
#[derive(Clone, Copy, Debug)]
pub struct Viewport {
    /// Width, CSS pixels.
    pub width: u32,
    /// Height, CSS pixels.
    pub height: u32,
    /// Fingers rather than a mouse; in Chromium alone, the other drivers have none.
    pub touch: bool,
}

/// How a visitor's screen presents itself to the page.
#[derive(Clone, Copy, Debug)]
pub struct Look {
    /// Size and kind of the screen.
    pub viewport: Viewport,
    /// The system asks for a dark page.
    pub dark: bool,
    /// The system asks for no motion.
    pub reduced_motion: bool,
    /// The system sets a few colours of its own in place of the page's; in Chromium alone.
    pub forced_colors: bool,
}

impl Look {
    /// A desktop, light.
    pub const DESKTOP: Self = Self::light(1440, 900, false);
    /// A tablet held upright, light.
    pub const TABLET: Self = Self::light(820, 1180, true);
    /// A phone, light.
    pub const PHONE: Self = Self::light(390, 844, true);
    /// The desktop at twice the size of everything: what is left of it in CSS pixels.
    pub const ZOOMED: Self = Self::light(720, 450, false);
    /// The narrowest screen that the page has to fit on.
    pub const NARROW: Self = Self::light(320, 640, true);

    const fn light(width: u32, height: u32, touch: bool) -> Self {
        Self {
            viewport: Viewport { width, height, touch },
            dark: false,
            reduced_motion: false,
            forced_colors: false,
        }
    }

    /// The same screen after dusk.
    #[must_use]
    pub const fn in_the_dark(self) -> Self {
        Self { dark: true, ..self }
    }

    /// The same screen for someone who asked for no motion.
    #[must_use]
    pub const fn without_motion(self) -> Self {
        Self {
            reduced_motion: true,
            ..self
        }
    }

    /// The same screen in the few colours of a high-contrast mode.
    #[must_use]
    pub const fn in_forced_colors(self) -> Self {
        Self {
            forced_colors: true,
            ..self
        }
    }
}
