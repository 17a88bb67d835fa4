//! Repeatable chance, and ballots marked by it.

use evenhand_rules::{OptionKind, Rank, Rule, Selections, Style, WRITE_IN_CHARACTERS, WriteInText};

/// A repeatable source of numbers (Marsaglia's xorshift, 64 bits: shifts 13, 7, 17).
#[derive(Clone, Debug)]
pub struct Chance(u64);

impl Chance {
    /// A source that starts at `seed`.
    pub fn new(seed: u64) -> Self {
        // Zero would stay zero for ever, and small seeds begin alike.
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    /// A number below `limit`, which is at least 1.
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % u64::try_from(limit).unwrap_or(1)).unwrap_or(0)
    }

    /// True in `share` of 100 cases.
    pub fn percent(&mut self, share: usize) -> bool {
        self.below(100) < share
    }
}

/// A name that the keyboard can write and a reader is to read: no space at its ends.
pub fn name(chance: &mut Chance, longest: usize) -> String {
    let letters: Vec<char> = WRITE_IN_CHARACTERS.chars().collect();
    let length = 1 + chance.below(longest);
    let mut name = String::new();
    for at in 0..length {
        let is_end = at == 0 || at + 1 == length;
        let letter = loop {
            let letter = letters[chance.below(letters.len())];
            if letter != ' ' || !is_end {
                break letter;
            }
        };
        name.push(letter);
    }
    name
}

/// A written name as the machine keeps it.
pub fn written(words: &str) -> WriteInText {
    let mut text = WriteInText::new();
    for letter in words.chars() {
        text.push(letter).expect("the name is one that the keyboard can write");
    }
    text
}

/// A ballot marked at random, within every contest's rule: some contests full, some in part, some
/// empty; some write-in lines with names, few chosen and left blank.
pub fn selections(style: &Style, chance: &mut Chance) -> Selections {
    marked(style, chance, false)
}

/// A ballot marked at random with as many marks in every contest as it allows.
pub fn full(style: &Style, chance: &mut Chance) -> Selections {
    marked(style, chance, true)
}

fn marked(style: &Style, chance: &mut Chance, is_full: bool) -> Selections {
    let mut selections = Selections::none(style);
    for (contest, definition) in style.contests() {
        let limit = usize::from(definition.limit());
        let count = if is_full { limit } else { chance.below(limit + 1) };
        let mut options: Vec<_> = definition.indexed_options().collect();
        for rank in 1..=count {
            if options.is_empty() {
                break;
            }
            let (option, listed) = options.swap_remove(chance.below(options.len()));
            let marked = match definition.rule {
                Rule::Choose { .. } => selections.choose(style, contest, option),
                Rule::Rank { .. } => {
                    let rank = Rank(u8::try_from(rank).expect("few ranks"));
                    selections.rank(style, contest, option, rank)
                }
            };
            marked.expect("it is within the rule");
            if listed.kind == OptionKind::WriteIn && chance.percent(90) {
                let name = written(&name(chance, 38));
                selections.write_in(contest, option, name).expect("it is a write-in line");
            }
        }
    }
    selections
}
