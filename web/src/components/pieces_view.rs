//! Typeset arithmetic: fractions over one another, speeds with their shaft as index, answers set strong.

use layshaft_editor::Piece;
use yew::prelude::*;

use super::ratio_view::RatioView;

/// Properties of [`PiecesView`].
#[derive(Properties, PartialEq)]
pub struct PiecesViewProps {
    /// From left to right.
    pub pieces: Vec<Piece>,
}

/// One line of arithmetic.
#[component]
pub fn PiecesView(props: &PiecesViewProps) -> Html {
    html! { <>{ for props.pieces.iter().map(piece) }</> }
}

fn piece(piece: &Piece) -> Html {
    match piece {
        Piece::Text(text) => html! { <span class="sign">{ text }</span> },
        Piece::Fraction(above, below) => {
            html! { <span class="fraction"><span>{ above }</span><span>{ below }</span></span> }
        }
        Piece::Speed(shaft) => html! { <var class="speed">{ "n" }<sub>{ shaft.as_str() }</sub></var> },
        Piece::Answer(ratio) => html! { <strong class="answer"><RatioView ratio={ratio.clone()} /></strong> },
        Piece::Open(pieces) => {
            html! { <strong class="answer"><PiecesView pieces={pieces.clone()} /></strong> }
        }
        Piece::Blank => html! { <span class="blank-answer" role="img" aria-label="hidden answer" /> },
    }
}
