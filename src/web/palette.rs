//! The theme's colors for the canvas.

use web_sys::window;

/// The colors of the theme in force, read from the stylesheet.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Palette {
    pub(super) panel: String,
    pub(super) edge: String,
    pub(super) ink: String,
    pub(super) muted: String,
    pub(super) acid_fill: String,
    pub(super) acid_line: String,
    pub(super) acid_tint: String,
    pub(super) base_line: String,
    pub(super) base_tint: String,
    pub(super) hydroxide: String,
    pub(super) water: String,
    pub(super) focus: String,
    pub(super) on_acid: String,
}

impl Palette {
    /// Reads the tokens of `style/tokens.css` as they hold now.
    pub fn read() -> Option<Self> {
        let window = window()?;
        let root = window.document()?.document_element()?;
        let style = window.get_computed_style(&root).ok()??;
        let token = |name: &str| {
            style
                .get_property_value(name)
                .unwrap_or_default()
                .trim()
                .to_owned()
        };
        Some(Self {
            panel: token("--panel"),
            edge: token("--edge"),
            ink: token("--ink"),
            muted: token("--muted"),
            acid_fill: token("--acid-fill"),
            acid_line: token("--acid-line"),
            acid_tint: token("--acid-tint"),
            base_line: token("--base-line"),
            base_tint: token("--base-tint"),
            hydroxide: token("--hydroxide"),
            water: token("--water"),
            focus: token("--focus"),
            // Dark on amber in both themes, so that the sign keeps its contrast.
            on_acid: "#1b2430".to_owned(),
        })
    }

    /// Black on white: the bodies are told apart by their shapes, the acid form by its gray fill
    /// as well.
    #[cfg(feature = "teacher")]
    pub fn print() -> Self {
        let [white, light, black] = ["#fff", "#ccc", "#000"].map(str::to_owned);
        // So that a level does not lie over its walls.
        let clear = "transparent".to_owned();
        Self {
            panel: white,
            edge: black.clone(),
            ink: black.clone(),
            muted: black.clone(),
            acid_fill: light,
            acid_line: black.clone(),
            acid_tint: clear.clone(),
            base_line: black.clone(),
            base_tint: clear,
            hydroxide: black.clone(),
            water: black.clone(),
            focus: black.clone(),
            on_acid: black,
        }
    }
}
