//! The bodies of the particle view as small drawings, for labels: the legend that is
//! always there.

use leptos::prelude::*;

/// Which body.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Body {
    /// A filled circle with its proton.
    Acid,
    /// An open ring.
    Base,
    /// A small dark dot.
    Hydrogen,
    /// A small ring with a bar.
    Hydroxide,
    /// A ring with two dark ears.
    Water,
}

/// One body.
#[component]
pub(super) fn Glyph(
    /// Which one.
    body: Body,
) -> impl IntoView {
    view! { <svg class="glyph" viewBox="0 0 24 24" aria-hidden="true" inner_html=drawn(body)></svg> }
}

/// The inside of its drawing.
pub(super) const fn drawn(body: Body) -> &'static str {
    match body {
        Body::Acid => {
            "<circle class='acid-body' cx='11' cy='12' r='8'/><circle class='proton' cx='17' cy='7' r='3.4'/>"
        }
        Body::Base => "<path class='base-body' d='M18 8.4 A 8 8 0 1 1 13.5 4.4'/>",
        Body::Hydrogen => "<circle class='proton' cx='12' cy='12' r='4'/>",
        Body::Hydroxide => {
            "<circle class='hydroxide' cx='12' cy='12' r='5.5'/><path class='hydroxide' d='M6.5 12h11'/>"
        }
        Body::Water => {
            "<circle class='water' cx='12' cy='11' r='7'/><circle class='proton' cx='6' cy='15' r='2.4'/><circle class='proton' cx='18' cy='15' r='2.4'/>"
        }
    }
}
