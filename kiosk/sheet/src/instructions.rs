//! The instructions at the head of the first page, and the head of every page.

use alloc::string::String;
use alloc::vec::Vec;

use evenhand_lettering::MissingCharacter;
use evenhand_rules::{Election, Header, Micrometres, Style as BallotStyle};

use crate::brick::Brick;
use crate::metrics::{
    BOX_PADDING, CLEAR, CORNER, HAIRLINE, INDENT, LARGE, MARGIN, NAME_INDENT, NORMAL, OVAL_HEIGHT,
    OVAL_STROKE, OVAL_WIDTH, PAPER_WIDTH, PARAGRAPH_GAP, SMALL, STAMP_HEIGHT, STAMP_WIDTH, TITLE,
    TOP_EDGE,
};
use crate::setter::{SEPARATOR, Setter, Slot, Style, capital_middle};
use crate::{InstructionTexts, Point, Rect, Rule, SampleOval, StepPicture};

/// The instructions in a column of this width. Pictures stand where a contest has its ovals.
pub(crate) fn instructions(
    setter: &Setter<'_>,
    width: Micrometres,
) -> Result<Brick, MissingCharacter> {
    let mut brick = Brick::space(PARAGRAPH_GAP);
    let texts: Vec<InstructionTexts> = (setter.edition.languages.iter())
        .map(|language| setter.edition.wording.instructions(language))
        .collect();
    let title: Vec<String> = texts.iter().map(|texts| texts.title.clone()).collect();
    let whole = Slot { x: INDENT, width: width.minus(INDENT).minus(INDENT) };
    setter.add_each(&mut brick, &title, Style::bold(LARGE), Style::regular(TITLE), whole)?;
    let beside = Slot { x: NAME_INDENT, width: width.minus(NAME_INDENT).minus(INDENT) };
    // With one language bold would be the whole text, and bold that is everywhere says nothing.
    let first = if texts.len() > 1 { Style::bold(NORMAL) } else { Style::regular(NORMAL) };
    let steps = texts.iter().map(|texts| texts.steps.len()).max().unwrap_or(0);
    for at in 0..steps {
        brick.height = brick.height.plus(PARAGRAPH_GAP).plus(PARAGRAPH_GAP.half());
        let step: Vec<_> = texts.iter().filter_map(|texts| texts.steps.get(at)).collect();
        let picture = step.first().map_or(StepPicture::None, |step| step.picture);
        brick.samples.extend(sample(picture, brick.height));
        let words: Vec<String> = step.iter().map(|step| step.text.clone()).collect();
        setter.add_each(&mut brick, &words, first, Style::regular(NORMAL), beside)?;
    }
    brick.height = brick.height.plus(BOX_PADDING);
    Ok(brick)
}

/// The picture of a step whose first line begins at `top`.
fn sample(picture: StepPicture, top: Micrometres) -> Option<SampleOval> {
    let is_filled = match picture {
        StepPicture::None => return None,
        StepPicture::EmptyOval => false,
        StepPicture::FilledOval => true,
    };
    let y = top.plus(capital_middle(NORMAL)).minus(OVAL_HEIGHT.half());
    let area = Rect { x: INDENT, y, width: OVAL_WIDTH, height: OVAL_HEIGHT };
    Some(SampleOval { area, stroke: OVAL_STROKE, is_filled })
}

/// The head of every page, from the page's left top margin: whose election, which ballot.
pub(crate) fn page_head(
    setter: &Setter<'_>,
    election: &Election,
    style: &BallotStyle,
) -> Result<Brick, MissingCharacter> {
    let mut brick = Brick::default();
    let x = CORNER.plus(CLEAR);
    let width = stamp_area().x.minus(MARGIN).minus(x).minus(CLEAR.half());
    let slot = Slot { x, width };
    let name = setter.texts(&election.name);
    setter.add_each(&mut brick, &name, Style::bold(LARGE), Style::regular(TITLE), slot)?;
    let held = setter.words(|wording, language| {
        let day = wording.date(&election.date, language);
        joined(&[election.jurisdiction.in_language(language), &day])
    });
    let which = setter.words(|wording, language| {
        let party = style.party.as_ref().map_or("", |party| party.in_language(language));
        let code = wording.style_code(&style.code, language);
        joined(&[style.precinct.in_language(language), party, &code])
    });
    for (line, first) in [(held, Style::regular(SMALL)), (which, Style::bold(SMALL))] {
        setter.add_each(&mut brick, &line, first, Style::regular(SMALL), slot)?;
    }
    brick.height = brick.height.max(stamp_area().height).plus(PARAGRAPH_GAP);
    let across = PAPER_WIDTH.minus(MARGIN.times(2));
    let edge = Rect { x: Micrometres(0), y: brick.height, width: across, height: TOP_EDGE };
    brick.rules.push(Rule { area: edge, black: 1000 });
    brick.height = brick.height.plus(TOP_EDGE);
    Ok(brick)
}

/// A header over the contests that follow.
pub(crate) fn heading(
    setter: &Setter<'_>,
    header: &Header,
    width: Micrometres,
) -> Result<Brick, MissingCharacter> {
    let mut brick = Brick::space(PARAGRAPH_GAP.half());
    let slot = Slot { x: Micrometres(0), width };
    let name = setter.texts(&header.name.shown);
    setter.add_beside(&mut brick, &name, Style::bold(LARGE), Style::regular(TITLE), slot)?;
    for text in header.content.iter().flat_map(|content| setter.texts(content)) {
        setter.add(&mut brick, &text, Style::regular(NORMAL), slot)?;
    }
    brick.height = brick.height.plus(PARAGRAPH_GAP.half());
    let edge = Rect { x: Micrometres(0), y: brick.height, width, height: HAIRLINE };
    brick.rules.push(Rule { area: edge, black: 1000 });
    brick.height = brick.height.plus(HAIRLINE);
    brick.keeps_next = true;
    Ok(brick)
}

/// The area that is kept for "test ballot" on every page, right in the page's head.
pub(crate) fn stamp_area() -> Rect {
    let right = PAPER_WIDTH.minus(MARGIN).minus(CORNER).minus(CLEAR);
    let at = Point { x: right.minus(STAMP_WIDTH), y: MARGIN };
    Rect { x: at.x, y: at.y, width: STAMP_WIDTH, height: STAMP_HEIGHT }
}

fn joined(parts: &[&str]) -> String {
    let mut line = String::new();
    for part in parts.iter().filter(|part| !part.trim().is_empty()) {
        if !line.is_empty() {
            line.push_str(SEPARATOR);
        }
        line.push_str(part);
    }
    line
}
