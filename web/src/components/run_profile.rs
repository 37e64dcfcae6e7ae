//! The course from the side.

use std::rc::Rc;

use layshaft_editor::Point;
use layshaft_editor::runs::Profile;
use yew::prelude::*;

/// Properties of [`RunProfile`].
#[derive(Properties, PartialEq)]
pub struct RunProfileProps {
    /// The course.
    pub profile: Rc<Profile>,
    /// Where the vehicle is.
    pub at: Option<Point>,
}

/// Ground, foot line with distances, slopes, and a dot where the vehicle is.
#[component]
pub fn RunProfile(props: &RunProfileProps) -> Html {
    let profile = &props.profile;
    let (width, height) = (profile.size.width, profile.size.height);
    let foot = profile.foot;
    html! {
        <svg class="plot profile" viewBox={format!("0 0 {width} {height}")} width={width.to_string()} height={height.to_string()}
            role="img" aria-label={profile.spoken.clone()}>
            <path class="earth" d={profile.earth.clone()} />
            { for profile.ends.iter().map(|(point, text)| html! {
                <>
                    <path class="plot-thin" d={format!("M{:.1} {:.1}V{:.1}", point.x, point.y, foot + 5.0)} />
                    <text class="plot-text" x={point.x.to_string()} y={(foot + 19.0).to_string()} text-anchor="middle">{ text }</text>
                </>
            }) }
            <path class="ground-line" d={profile.ground.clone()} />
            { for profile.slopes.iter().map(|(point, text)| html! {
                <text class="plot-text is-strong" x={point.x.to_string()} y={point.y.to_string()} text-anchor="middle">{ text }</text>
            }) }
            if let Some(at) = props.at { <circle class="plot-dot" cx={at.x.to_string()} cy={(at.y - 4.0).to_string()} r="5" /> }
        </svg>
    }
}
