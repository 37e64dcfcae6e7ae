//! Common texts of a compact file, each swapped for one byte before compression: a short link has few repetitions from
//! which compression could learn them.
//!
//! A compact JSON text has no byte below 0x20, so 0x1f is free to mark a letter beyond ASCII; the bytes from 0x80 on
//! then stand for the texts of the table. The table is part of the link's version: a longer table is another version, but
//! what needs none of its new texts is still written as the older one, which older programs read.

use super::LinkError;

/// Stands before a byte that means itself.
const ITSELF: u8 = 0x1f;
/// The byte of the first text.
const FIRST: u8 = 0x80;

/// How many of the texts version 1 knew; those behind came with version 2.
const KNOWN_TO_1: usize = 97;

/// All texts. New ones are put at the end, so that older links read as they did.
const TEXTS: &[&str] = &[
    r#"{"layshaft":1,"title":""#,
    r#"{"layshaft":1,""#,
    r#"","notes":""#,
    r#"","drive":""#,
    r#","last_number":"#,
    r#"","shafts":[{"id":""#,
    r#"shafts":[{"id":""#,
    r#"],"elements":[{"id":""#,
    r#"],"positions":[{"id":""#,
    r#"},{"id":""#,
    r#"]},{"id":""#,
    r#"","at":["#,
    r#"","name":""#,
    r#"","engaged":[""#,
    r#"","kind":"mesh","a":""#,
    r#"","kind":"chain","a":""#,
    r#"","kind":"belt","a":""#,
    r#"","kind":"worm","worm":""#,
    r#"","kind":"differential","sides":[""#,
    r#"","kind":"planetary","sun":""#,
    r#"","kind":"stepped","first":""#,
    r#"","kind":"clutch","a":""#,
    r#"","kind":"brake","shaft":""#,
    r#"","kind":"motor","shaft":""#,
    r#"","kind":"crank","shaft":""#,
    r#"","kind":"load","shaft":""#,
    r#"","kind":"vehicle","shafts":[""#,
    r#"","kind":"winch","shaft":""#,
    r#"","b":""#,
    r#"",""#,
    r#"","teeth":["#,
    r#"],"form":"internal""#,
    r#"],"form":"bevel""#,
    r#","sense":"same""#,
    r#"],"efficiency":0."#,
    r#","efficiency":0."#,
    r#"","efficiency":0."#,
    r#"],"friction":0."#,
    r#","friction":0."#,
    r#","module_mm":"#,
    r#","pressure_angle_deg":"#,
    r#","at":["#,
    r#"","diameters_mm":["#,
    r#"],"crossed":true"#,
    r#"","wheel":""#,
    r#"","starts":1,"teeth":"#,
    r#"","starts":"#,
    r#","teeth":"#,
    r#","hand":"left""#,
    r#","lead_angle_deg":"#,
    r#""],"carrier":""#,
    r#"","carrier":""#,
    r#"","ring":""#,
    r#"","teeth":{"sun":"#,
    r#","ring":"#,
    r#"},"planets":"double""#,
    r#"},"efficiency":0."#,
    r#","count":3"#,
    r#"","second":""#,
    r#"","basic_ratio":["#,
    r#"","teeth":[["#,
    r#"]],"rings":["second"]"#,
    r#"","nominal_v":"#,
    r#","no_load_rpm":"#,
    r#","no_load_a":0."#,
    r#","stall_nm":0."#,
    r#","stall_a":"#,
    r#","supply_v":"#,
    r#","supply_ohm":0."#,
    r#"","speed_rpm":"#,
    r#","limit_nm":"#,
    r#"","torque_nm":"#,
    r#","viscous_nms":0."#,
    r#","fan_nms2":0."#,
    r#","inertia_kgm2":0."#,
    r#","drag_nm":0."#,
    r#","journal_friction":0."#,
    r#","journal_radius_mm":"#,
    r#","overhang":"#,
    r#""],"wheel_mm":"#,
    r#","mass_kg":"#,
    r#","rolling":0."#,
    r#","slope_deg":"#,
    r#","tyre_friction":0."#,
    r#","wheelbase_mm":"#,
    r#","cg_height_mm":"#,
    r#","cg_from_rear_mm":"#,
    r#","driven":"rear""#,
    r#","driven":"front""#,
    r#","forward":"positive""#,
    r#","forward":"negative""#,
    r#"","drum_mm":"#,
    r#","rope_mm":"#,
    r#","layers":"#,
    r#","pull_n":"#,
    r#","lifts":"positive""#,
    r#","lifts":"negative""#,
    r#"","kind":"friction_wheel","a":""#,
    r#"","kind":"one_way","a":""#,
    r#"","kind":"slip_clutch","a":""#,
    r#"","kind":"torque_switch","a":""#,
    r#","material_pair":""#,
    r#","slip_nm":"#,
    r#"],"axis_mm":["#,
    r#","pretension_n":"#,
    r#","pitch_mm":"#,
    r#","press_n":"#,
    r#","wheel_mm":"#,
    r#","collar_mm":"#,
    r#","collar_friction":0."#,
    r#","pin_friction":0."#,
    r#","pin_ratio":0."#,
    r#"","teeth":{"side":"#,
    r#","planet":"#,
    r#"","up_nm":"#,
    r#","down_nm":"#,
    r#","from":""#,
    r#"","to":""#,
    r#","rotor_kgm2":"#,
    r#","winding_c":"#,
    r#","battery_mah":"#,
    r#","heat_limit_w":"#,
    r#","width_mm":"#,
    r#","skip_nm":"#,
    r#","course":[{"length_m":"#,
    r#","material":""#,
];

/// Swaps common texts for bytes; where several fit, the longest. Gives the version that is needed to read them.
pub(super) fn pack(text: &str) -> (u8, Vec<u8>) {
    let mut version = 1;
    let mut rest = text.as_bytes();
    let mut packed = Vec::with_capacity(rest.len() / 2);
    while let [byte, after @ ..] = rest {
        if let Some((code, common)) = longest_at(rest) {
            if usize::from(code - FIRST) >= KNOWN_TO_1 {
                version = 2;
            }
            packed.push(code);
            rest = &rest[common.len()..];
            continue;
        }
        if *byte >= FIRST {
            packed.push(ITSELF);
        }
        packed.push(*byte);
        rest = after;
    }
    (version, packed)
}

/// The longest common text that `rest` starts with, and its byte.
fn longest_at(rest: &[u8]) -> Option<(u8, &'static str)> {
    // Every common text starts with one of these; most bytes of a file do not.
    if !matches!(rest[0], b'"' | b',' | b'{' | b'}' | b']' | b's') {
        return None;
    }
    let fitting = (FIRST..)
        .zip(TEXTS)
        .filter(|(_, common)| rest.starts_with(common.as_bytes()));
    fitting
        .max_by_key(|(_, common)| common.len())
        .map(|(code, common)| (code, *common))
}

/// Puts the common texts back.
///
/// # Errors
/// [`LinkError::TooLarge`] beyond `most` bytes; [`LinkError::Damaged`] for a byte that stands for nothing.
pub(super) fn unpack(version: u8, packed: &[u8], most: usize) -> Result<String, LinkError> {
    let known = if version == 1 { &TEXTS[..KNOWN_TO_1] } else { TEXTS };
    let mut text = Vec::with_capacity(packed.len());
    let mut bytes = packed.iter().copied();
    while let Some(byte) = bytes.next() {
        match byte {
            ITSELF => text.push(bytes.next().ok_or(LinkError::Damaged)?),
            code if code >= FIRST => {
                let common = known.get(usize::from(code - FIRST)).ok_or(LinkError::Damaged)?;
                text.extend_from_slice(common.as_bytes());
            }
            plain => text.push(plain),
        }
        if text.len() > most {
            return Err(LinkError::TooLarge);
        }
    }
    String::from_utf8(text).map_err(|_| LinkError::Damaged)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_text_fits_its_byte_and_starts_where_it_is_looked_for() {
        for (place, text) in TEXTS.iter().enumerate() {
            let code = u8::try_from(place)
                .expect("the table is small")
                .checked_add(FIRST)
                .expect("it fits in a byte");
            let version = if place < KNOWN_TO_1 { 1 } else { 2 };
            assert_eq!(pack(text), (version, vec![code]), "{text}");
        }
    }

    #[test]
    fn letters_beyond_ascii_come_through() {
        let text = r#"{"layshaft":1,"title":"подъёмник ½"}"#;
        let (version, packed) = pack(text);
        assert_eq!(unpack(version, &packed, 1000), Ok(text.to_owned()));
    }

    #[test]
    fn bytes_that_stand_for_nothing_are_damage() {
        assert_eq!(unpack(2, &[0xff], 10), Err(LinkError::Damaged));
        assert_eq!(unpack(2, &[ITSELF], 10), Err(LinkError::Damaged));
        assert_eq!(unpack(2, &[ITSELF, 0xff], 10), Err(LinkError::Damaged));
    }

    #[test]
    fn what_version_1_did_not_know_is_damage_there() {
        let (_, packed) = pack(TEXTS[KNOWN_TO_1]);
        assert_eq!(unpack(1, &packed, 100), Err(LinkError::Damaged));
    }
}
