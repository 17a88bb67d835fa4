//! Random markings that keep each contest's rule.

use evenhand_rules::{
    OptionKind, Rank, Rule, Selections, Style, WRITE_IN_CHARACTERS, WRITE_IN_LEN_MAX, WriteInText,
};

/// A small generator of numbers that look random: the same for the same seed, on every machine.
/// (`SplitMix64`, S. Vigna; constants from memory.)
pub struct Dice(pub u64);

impl Dice {
    /// A number below `limit`.
    pub fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        usize::try_from((z ^ (z >> 31)) % limit as u64).unwrap()
    }
}

/// One random marking of a style: some contests left, some full, names on the marked lines.
pub fn selections(style: &Style, seed: u64) -> Selections {
    let mut dice = Dice(seed);
    let mut selections = Selections::none(style);
    for (index, contest) in style.contests() {
        for (option, definition) in contest.indexed_options() {
            if dice.below(3) == 0 {
                continue;
            }
            let marked = match contest.rule {
                Rule::Choose { .. } => selections.choose(style, index, option),
                Rule::Rank { ranks } => {
                    let rank = u8::try_from(dice.below(usize::from(ranks)) + 1).unwrap();
                    selections.rank(style, index, option, Rank(rank))
                }
            };
            if marked.is_ok() && definition.kind == OptionKind::WriteIn {
                let length = dice.below(WRITE_IN_LEN_MAX + 1);
                selections.write_in(index, option, name(&mut dice, length)).unwrap();
            }
        }
    }
    selections
}

/// A name of this many characters that begins and ends with a letter.
pub fn name(dice: &mut Dice, length: usize) -> WriteInText {
    let alphabet: Vec<char> = WRITE_IN_CHARACTERS.chars().collect();
    let mut name = WriteInText::new();
    for at in 0..length {
        let inner = at > 0 && at + 1 < length;
        let choice = if inner { alphabet.len() } else { 26 };
        name.push(alphabet[dice.below(choice)]).unwrap();
    }
    name
}
