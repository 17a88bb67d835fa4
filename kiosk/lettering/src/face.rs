//! The faces, embedded whole. Who draws or prints takes what it needs from them.

/// What a text is for: the weight that its writer asks for. Which [`Face`] has its letters is for
/// the [`Shaper`](crate::Shaper) to find.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Weight {
    /// Regular.
    Regular,
    /// Bold.
    Bold,
    /// Every letter as wide as the next, for written-in names.
    Fixed,
}

/// The faces of one look.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// Atkinson Hyperlegible Next and Mono: a legibility face made for low vision.
    Legible,
    /// Noto Sans: the Latin letters of Vietnamese and the Cyrillic ones, which the first lacks.
    Wide,
    /// Noto Sans Arabic.
    Arabic,
    /// Noto Sans Bengali.
    Bengali,
    /// Noto Sans Khmer.
    Khmer,
    /// Noto Sans KR, for Hangul.
    Korean,
    /// Noto Sans TC, for traditional Chinese characters.
    Chinese,
}

impl Family {
    /// True where marks are stacked above and below the letters, so that lines need more room.
    pub const fn is_tall(self) -> bool {
        matches!(self, Self::Arabic | Self::Bengali | Self::Khmer)
    }

    /// Every family, in the order in which one is looked for that has all letters of a text.
    pub const ALL: [Self; 7] = [
        Self::Legible,
        Self::Wide,
        Self::Arabic,
        Self::Bengali,
        Self::Khmer,
        Self::Korean,
        Self::Chinese,
    ];
}

/// A typeface that the station owns: a family and a weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Face {
    family: Family,
    weight: Weight,
}

impl Face {
    /// Atkinson Hyperlegible Next, regular.
    pub const REGULAR: Self = Self { family: Family::Legible, weight: Weight::Regular };
    /// Atkinson Hyperlegible Next, bold.
    pub const BOLD: Self = Self { family: Family::Legible, weight: Weight::Bold };
    /// Atkinson Hyperlegible Mono, regular.
    pub const FIXED: Self = Self { family: Family::Legible, weight: Weight::Fixed };

    /// Every face: three of the first family, two of each other one.
    pub const ALL: [Self; 15] = [
        Self::REGULAR,
        Self::BOLD,
        Self::FIXED,
        Self { family: Family::Wide, weight: Weight::Regular },
        Self { family: Family::Wide, weight: Weight::Bold },
        Self { family: Family::Arabic, weight: Weight::Regular },
        Self { family: Family::Arabic, weight: Weight::Bold },
        Self { family: Family::Bengali, weight: Weight::Regular },
        Self { family: Family::Bengali, weight: Weight::Bold },
        Self { family: Family::Khmer, weight: Weight::Regular },
        Self { family: Family::Khmer, weight: Weight::Bold },
        Self { family: Family::Korean, weight: Weight::Regular },
        Self { family: Family::Korean, weight: Weight::Bold },
        Self { family: Family::Chinese, weight: Weight::Regular },
        Self { family: Family::Chinese, weight: Weight::Bold },
    ];

    /// The family.
    pub const fn family(self) -> Family {
        self.family
    }
    /// The weight.
    pub const fn weight(self) -> Weight {
        self.weight
    }
    /// The same weight in another family. Only the first family has a fixed-width face.
    #[must_use]
    pub const fn in_family(self, family: Family) -> Self {
        match self.weight {
            Weight::Fixed => self,
            weight @ (Weight::Regular | Weight::Bold) => Self { family, weight },
        }
    }

    /// Its place in [`Face::ALL`].
    pub(crate) fn index(self) -> usize {
        Self::ALL.iter().position(|face| *face == self).unwrap_or(0)
    }
}

/// What is known of a face: its file and its names.
struct File {
    bytes: &'static [u8],
    post_script: &'static str,
    family: &'static str,
}

macro_rules! file {
    ($file:literal, $post_script:literal, $family:literal) => {
        File {
            bytes: include_bytes!(concat!("../fonts/", $file, ".ttf")),
            post_script: $post_script,
            family: $family,
        }
    };
}

/// In the order of [`Face::ALL`].
static FILES: [File; 15] = [
    file!(
        "AtkinsonHyperlegibleNext_400Regular",
        "AtkinsonHyperlegibleNext-Regular",
        "Atkinson Hyperlegible Next"
    ),
    file!(
        "AtkinsonHyperlegibleNext_700Bold",
        "AtkinsonHyperlegibleNext-Bold",
        "Atkinson Hyperlegible Next"
    ),
    file!(
        "AtkinsonHyperlegibleMono_400Regular",
        "AtkinsonHyperlegibleMono-Regular",
        "Atkinson Hyperlegible Mono"
    ),
    file!("NotoSans_400Regular", "NotoSans-Regular", "Noto Sans"),
    file!("NotoSans_700Bold", "NotoSans-Bold", "Noto Sans"),
    file!("NotoSansArabic_400Regular", "NotoSansArabic-Regular", "Noto Sans Arabic"),
    file!("NotoSansArabic_700Bold", "NotoSansArabic-Bold", "Noto Sans Arabic"),
    file!("NotoSansBengali_400Regular", "NotoSansBengali-Regular", "Noto Sans Bengali"),
    file!("NotoSansBengali_700Bold", "NotoSansBengali-Bold", "Noto Sans Bengali"),
    file!("NotoSansKhmer_400Regular", "NotoSansKhmer-Regular", "Noto Sans Khmer"),
    file!("NotoSansKhmer_700Bold", "NotoSansKhmer-Bold", "Noto Sans Khmer"),
    file!("NotoSansKR_400Regular", "NotoSansKR-Regular", "Noto Sans KR"),
    file!("NotoSansKR_700Bold", "NotoSansKR-Bold", "Noto Sans KR"),
    file!("NotoSansTC_400Regular", "NotoSansTC-Regular", "Noto Sans TC"),
    file!("NotoSansTC_700Bold", "NotoSansTC-Bold", "Noto Sans TC"),
];

fn file_of(face: Face) -> &'static File {
    let [first, ..] = &FILES;
    FILES.get(face.index()).unwrap_or(first)
}

/// The whole font file of a face (TrueType outlines).
pub fn font_bytes(face: Face) -> &'static [u8] {
    file_of(face).bytes
}

/// The `PostScript` name of a face, as its font file states it.
pub fn font_name(face: Face) -> &'static str {
    file_of(face).post_script
}

/// The family name of a face, as its font file states it and a window's toolkit asks for it.
pub fn family_name(face: Face) -> &'static str {
    file_of(face).family
}
