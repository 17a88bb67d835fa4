//! The faces and their bytes. Licences lie beside the fonts, in `fonts/`.

/// A typeface that the station owns.
///
/// One face a weight for Latin. A script with faces of its own gets variants here and a line in
/// [`font_bytes`]; whoever draws text then needs no change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Face {
    /// Atkinson Hyperlegible Next, regular.
    Regular,
    /// Atkinson Hyperlegible Next, bold.
    Bold,
    /// Atkinson Hyperlegible Mono, regular: every letter as wide as the next, for written-in names.
    Fixed,
}

impl Face {
    /// Every face.
    pub const ALL: [Self; 3] = [Self::Regular, Self::Bold, Self::Fixed];
}

/// The whole font file of a face (TrueType outlines).
pub fn font_bytes(face: Face) -> &'static [u8] {
    match face {
        Face::Regular => include_bytes!("../fonts/AtkinsonHyperlegibleNext_400Regular.ttf"),
        Face::Bold => include_bytes!("../fonts/AtkinsonHyperlegibleNext_700Bold.ttf"),
        Face::Fixed => include_bytes!("../fonts/AtkinsonHyperlegibleMono_400Regular.ttf"),
    }
}

/// The `PostScript` name of a face, as its font file states it.
pub fn font_name(face: Face) -> &'static str {
    match face {
        Face::Regular => "AtkinsonHyperlegibleNext-Regular",
        Face::Bold => "AtkinsonHyperlegibleNext-Bold",
        Face::Fixed => "AtkinsonHyperlegibleMono-Regular",
    }
}
