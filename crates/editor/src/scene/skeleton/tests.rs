//! Skeletons of demos and of arbitrary layouts.
