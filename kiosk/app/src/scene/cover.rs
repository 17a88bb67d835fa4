//! The screen that a voter has hidden, and the screens that take a touch anywhere.

use evenhand_visit::{Bar, Message, Page, Phrase, ScreenKind, Target, View};

/// The view with nothing of the voter's in it: it says that the screen is hidden.
pub(super) fn view(of: &View) -> View {
    let empty = |bar: &Bar| Bar { target: bar.target, label: None };
    View {
        notice: None,
        place: None,
        heading: Phrase::new(Message::WorkerHeading),
        lines: vec![Phrase::new(Message::CoverLine)],
        rows: Vec::new(),
        page: Page::default(),
        has_blocks: false,
        blocks: Vec::new(),
        more_above: None,
        more_below: None,
        bar: of.bar.each_ref().map(empty),
        focus: None,
        ..of.clone()
    }
}

/// What a touch anywhere means: on a hidden screen that it is hidden, at the question for more time
/// its answer.
pub(super) fn touched_anywhere(view: &View) -> Option<Target> {
    if view.is_covered {
        Some(Target::HearAgain)
    } else {
        (view.screen == ScreenKind::MoreTime).then_some(Target::Row(0))
    }
}
