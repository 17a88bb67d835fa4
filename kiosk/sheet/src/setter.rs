//! Sets text into bricks: in the edition's languages, the first one bold.

use alloc::string::{String, ToString};
use alloc::vec;
use alloc::vec::Vec;

use evenhand_lettering::{Face, MissingCharacter, Run, Shaper};
use evenhand_rules::{Language, Micrometres, Text};

use crate::brick::Brick;
use crate::metrics::SMALL;
use crate::{Edition, Point, TextLine, Wording};

/// Between two languages that stand on one line.
const LANGUAGE_GAP: Micrometres = Micrometres(2_400);
/// Between texts of one face that stand on one line.
pub(crate) const SEPARATOR: &str = " · ";

/// Where text goes across a brick or a page.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slot {
    /// Left edge.
    pub x: Micrometres,
    /// Width.
    pub width: Micrometres,
}

/// A face and a size.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Style {
    pub(crate) face: Face,
    pub(crate) size: Micrometres,
}

impl Style {
    pub(crate) const fn bold(size: Micrometres) -> Self {
        Self { face: Face::BOLD, size }
    }
    pub(crate) const fn regular(size: Micrometres) -> Self {
        Self { face: Face::REGULAR, size }
    }
}

/// Sets text in an edition's languages.
pub(crate) struct Setter<'a> {
    pub(crate) shaper: &'a Shaper,
    pub(crate) edition: Edition<'a>,
}

impl Setter<'_> {
    /// An election's text in each of the edition's languages, an equal second one left out.
    pub(crate) fn texts(&self, text: &Text) -> Vec<String> {
        self.distinct(|language| text.in_language(language).to_string())
    }

    /// A sentence of the wording in each of the edition's languages, an equal second one left out.
    pub(crate) fn words(&self, word: impl Fn(&dyn Wording, &Language) -> String) -> Vec<String> {
        self.distinct(|language| word(self.edition.wording, language))
    }

    fn distinct(&self, text: impl Fn(&Language) -> String) -> Vec<String> {
        let mut texts: Vec<String> = Vec::new();
        for text in self.edition.languages.iter().map(text) {
            if !text.trim().is_empty() && !texts.contains(&text) {
                texts.push(text);
            }
        }
        texts
    }

    /// Adds lines at the brick's lower end.
    pub(crate) fn add(
        &self,
        brick: &mut Brick,
        text: &str,
        style: Style,
        slot: Slot,
    ) -> Result<(), MissingCharacter> {
        push_lines(brick, self.lines(text, style, slot.width)?, slot);
        Ok(())
    }

    /// Adds a text in each language at the brick's lower end: the first in `first`, the second in
    /// `second`, below it.
    pub(crate) fn add_each(
        &self,
        brick: &mut Brick,
        texts: &[String],
        first: Style,
        second: Style,
        slot: Slot,
    ) -> Result<(), MissingCharacter> {
        for (text, style) in texts.iter().zip([first, second]) {
            self.add(brick, text, style, slot)?;
        }
        Ok(())
    }

    /// Like [`Setter::add_each`], but on one line where both languages are short enough.
    pub(crate) fn add_beside(
        &self,
        brick: &mut Brick,
        texts: &[String],
        first: Style,
        second: Style,
        slot: Slot,
    ) -> Result<(), MissingCharacter> {
        match self.beside(texts, first, second, slot.width)? {
            Beside::Below => self.add_each(brick, texts, first, second, slot)?,
            Beside::Joined(runs) => push_lines(brick, runs, slot),
            Beside::Pair([one, two]) => {
                // Both stand on the first one's baseline, whatever their sizes.
                let x = slot.x.plus(one.width).plus(LANGUAGE_GAP);
                let origin = Point { x, y: brick.height.plus(baseline_of(&one)) };
                brick.texts.push(TextLine { origin, run: two });
                push_lines(brick, vec![one], slot);
            }
        }
        Ok(())
    }

    /// True where two languages of a text, if there are two, have room on one line.
    pub(crate) fn fits_beside(
        &self,
        texts: &[String],
        first: Style,
        second: Style,
        width: Micrometres,
    ) -> Result<bool, MissingCharacter> {
        let is_below = matches!(self.beside(texts, first, second, width)?, Beside::Below);
        Ok(texts.len() < 2 || !is_below)
    }

    fn beside(
        &self,
        texts: &[String],
        first: Style,
        second: Style,
        width: Micrometres,
    ) -> Result<Beside, MissingCharacter> {
        let [one, two] = texts else { return Ok(Beside::Below) };
        if first.face == second.face {
            // Nothing else would show where one language ends.
            let both = self.lines(&alloc::format!("{one}{SEPARATOR}{two}"), first, width)?;
            return Ok(if both.len() == 1 { Beside::Joined(both) } else { Beside::Below });
        }
        let ones = <[Run; 1]>::try_from(self.lines(one, first, width)?);
        let twos = <[Run; 1]>::try_from(self.lines(two, second, width)?);
        let (Ok([one]), Ok([two])) = (ones, twos) else { return Ok(Beside::Below) };
        let are_alike =
            one.face.family().is_tall() == two.face.family().is_tall() && one.is_rtl == two.is_rtl;
        let fits = are_alike && one.width.plus(LANGUAGE_GAP).plus(two.width) <= width;
        Ok(if fits { Beside::Pair([one, two]) } else { Beside::Below })
    }

    /// Breaks a text into lines and checks that every glyph is there.
    pub(crate) fn lines(
        &self,
        text: &str,
        style: Style,
        width: Micrometres,
    ) -> Result<Vec<Run>, MissingCharacter> {
        text_lines(self.shaper, text, (style.face, style.size), SMALL, width)
    }
}

/// Breaks a text into lines of this face and size, and checks that every glyph is there. Where the
/// letters are another face's, its type is as large to the eye and never under `least`.
///
/// # Errors
/// [`MissingCharacter`]: no face has all of the text's letters.
pub fn text_lines(
    shaper: &Shaper,
    text: &str,
    (face, size): (Face, Micrometres),
    least: Micrometres,
    width: Micrometres,
) -> Result<Vec<Run>, MissingCharacter> {
    let mut runs = shaper.break_lines(text, face, size, width);
    // A face with higher capitals comes out smaller; on paper there is a least type.
    if let Some(run) = runs.first().filter(|run| run.size < least.min(size)) {
        let least = i64::from(least.min(size).0).saturating_mul(i64::from(run.asked.0));
        let own = i64::from(run.size.0).max(1);
        let asked = least.saturating_add(own.saturating_sub(1)).div_euclid(own);
        let asked = Micrometres(i32::try_from(asked).unwrap_or(i32::MAX));
        runs = shaper.break_lines(text, face, asked, width);
    }
    for run in &runs {
        check(shaper, run)?;
    }
    Ok(runs)
}

fn check(shaper: &Shaper, run: &Run) -> Result<(), MissingCharacter> {
    if run.glyphs.iter().all(|glyph| glyph.id != 0) {
        return Ok(());
    }
    shaper.covers(&run.text, run.face)?;
    // Every character has a glyph of its own, but together they came out as none.
    let character = run.text.chars().next().unwrap_or_default();
    Err(MissingCharacter { character, face: run.face })
}

/// How the languages of a text stand together.
enum Beside {
    /// Each on lines of its own, or there is only one.
    Below,
    /// On one line, as one text.
    Joined(Vec<Run>),
    /// On one line, each in its own face.
    Pair([Run; 2]),
}

/// Adds shaped lines at the brick's lower end.
fn push_lines(brick: &mut Brick, runs: Vec<Run>, slot: Slot) {
    for run in runs {
        let step = leading_of(&run);
        brick.texts.push(line_in(slot, brick.height, run));
        brick.height = brick.height.plus(step);
    }
}

/// A run whose line begins at `top`: at the slot's left, or at its right where it is read from there.
pub(crate) fn line_in(slot: Slot, top: Micrometres, run: Run) -> TextLine {
    let from_right = run.is_rtl;
    line_from(slot, top, run, from_right)
}

/// A run whose line begins at `top`: at the slot's right, or at its left.
pub fn line_from(slot: Slot, top: Micrometres, run: Run, from_right: bool) -> TextLine {
    let indent = if from_right { slot.width.minus(run.width) } else { Micrometres(0) };
    let x = slot.x.plus(Micrometres(indent.0.max(0)));
    TextLine { origin: Point { x, y: top.plus(baseline_of(&run)) }, run }
}

/// From one line to the next: 1.22 em, own choice.
pub(crate) const fn leading(size: Micrometres) -> Micrometres {
    Micrometres(size.times(122).0 / 100)
}

/// The room over and under a line whose letters have marks stacked on them, in per cent of the em:
/// what Khmer and Bengali need by their fonts' own measures, own choice.
const TALL_ABOVE: i32 = 22;
const TALL_BELOW: i32 = 26;

/// From this line to the next.
pub const fn leading_of(run: &Run) -> Micrometres {
    let more = if run.face.family().is_tall() { TALL_ABOVE + TALL_BELOW } else { 0 };
    leading(run.asked).plus(Micrometres(run.asked.times(more).0 / 100))
}

/// A line's top to its baseline: 0.94 em, so that accented capitals stay within the line.
const fn baseline_of(run: &Run) -> Micrometres {
    let percent = if run.face.family().is_tall() { 94 + TALL_ABOVE } else { 94 };
    Micrometres(run.asked.times(percent).0 / 100)
}

/// A line's top to the middle of its capitals (0.668 em high in our first faces).
pub(crate) const fn capital_middle(size: Micrometres) -> Micrometres {
    Micrometres(size.times(606).0 / 1000)
}

/// The middle of a line's capitals.
pub(crate) fn middle_of(line: &TextLine) -> Micrometres {
    line.origin.y.minus(Micrometres(line.run.asked.times(334).0 / 1000))
}
