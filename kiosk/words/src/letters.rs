//! How a single letter is named: on screen as itself, in the headphones by its name.

/// The message that names a letter where its own sign won't do.
pub(crate) const fn name_of(letter: char) -> Option<&'static str> {
    Some(match letter {
        ' ' => "letter-space",
        '-' => "letter-hyphen",
        '\'' => "letter-apostrophe",
        '.' => "letter-period",
        'Á' => "letter-a-acute",
        'É' => "letter-e-acute",
        'Í' => "letter-i-acute",
        'Ó' => "letter-o-acute",
        'Ú' => "letter-u-acute",
        'Ñ' => "letter-n-tilde",
        'Ü' => "letter-u-diaeresis",
        'Ä' => "letter-a-diaeresis",
        'Ë' => "letter-e-diaeresis",
        'Ï' => "letter-i-diaeresis",
        'Ö' => "letter-o-diaeresis",
        'Ç' => "letter-c-cedilla",
        _ => return None,
    })
}

/// Every message of this file, and those that join names.
pub(crate) const IDS: [&str; 18] = [
    "letter-space",
    "letter-hyphen",
    "letter-apostrophe",
    "letter-period",
    "letter-a-acute",
    "letter-e-acute",
    "letter-i-acute",
    "letter-o-acute",
    "letter-u-acute",
    "letter-n-tilde",
    "letter-u-diaeresis",
    "letter-a-diaeresis",
    "letter-e-diaeresis",
    "letter-i-diaeresis",
    "letter-o-diaeresis",
    "letter-c-cedilla",
    "list-separator",
    "ticket-separator",
];
