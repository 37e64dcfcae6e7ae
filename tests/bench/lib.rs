//! Benches only: see `benches/`. They stay outside the gates, since times differ from machine to machine.
