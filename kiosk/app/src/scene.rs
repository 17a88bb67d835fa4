//! A screen as shapes with their places: made from a `View`, drawn by the window, measured by the
//! ruler, checked by tests. Nothing here depends on the window's toolkit.
//!
//! Invariant: one computation gives the heights that the ruler counts with and the places that are
//! drawn, so that no row is cut and nothing overlaps.
//!
//! Start reading at [`Stage::scene`].

mod action;
mod bands;
mod bar;
mod brick;
mod cover;
pub mod desk;
mod focus;
mod head;
mod keys;
mod more;
mod option;
mod passage;
mod picture;
mod regions;
mod summary;

use std::collections::BTreeMap;

use evenhand_lettering::Face;
use evenhand_rules::{ContestIndex, Micrometres, OptionIndex};
use evenhand_sheet::Rect;
use evenhand_visit::{Message, Phrase, Row, RowKind, Target, Tone, View};
use evenhand_words::Words as Wording;

use self::brick::Brick;
use self::regions::Regions;
pub use self::regions::Screen;
use crate::metrics::{GAP, Role, Type, smaller};
use crate::palette::Tint;
use crate::typesetter::{Typesetter, Words};

/// One thing to draw.
#[derive(Clone, Debug, PartialEq)]
pub enum Mark {
    /// A box.
    Box {
        /// Where.
        area: Rect,
        /// What fills it.
        fill: Option<Tint>,
        /// Its edge, within the area.
        edge: Option<(Tint, Micrometres)>,
        /// The radius of its corners.
        corner: Micrometres,
    },
    /// The paper's oval.
    Oval {
        /// The outline's outer box.
        area: Rect,
        /// The outline's width.
        stroke: Micrometres,
        /// True where it is solid.
        is_filled: bool,
    },
    /// One line of text.
    Text {
        /// The line's box: its leading high.
        area: Rect,
        /// The words.
        words: Words,
        /// The face.
        face: Face,
        /// The em.
        em: Micrometres,
        /// True where the words are read from the right.
        is_rtl: bool,
        /// The colour.
        tint: Tint,
    },
    /// A triangle that points up or down.
    Arrow {
        /// Its box.
        area: Rect,
        /// True where it points up.
        is_up: bool,
    },
    /// Stripes.
    Stripes(Rect),
    /// The sign of a notice.
    Sign {
        /// Its box.
        area: Rect,
        /// Which sign.
        tone: Tone,
    },
    /// A written name's picture from the paper.
    Picture {
        /// Where.
        area: Rect,
        /// The contest.
        contest: ContestIndex,
        /// The option.
        option: OptionIndex,
    },
}

impl Mark {
    /// The box that holds it.
    pub const fn area(&self) -> Rect {
        match self {
            Self::Box { area, .. }
            | Self::Oval { area, .. }
            | Self::Text { area, .. }
            | Self::Arrow { area, .. }
            | Self::Stripes(area)
            | Self::Sign { area, .. }
            | Self::Picture { area, .. } => *area,
        }
    }

    const fn area_mut(&mut self) -> &mut Rect {
        match self {
            Self::Box { area, .. }
            | Self::Oval { area, .. }
            | Self::Text { area, .. }
            | Self::Arrow { area, .. }
            | Self::Stripes(area)
            | Self::Sign { area, .. }
            | Self::Picture { area, .. } => area,
        }
    }
}

/// Something that can be touched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Touch {
    /// What it does.
    pub target: Target,
    /// Where.
    pub area: Rect,
}

/// A whole screen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Scene {
    /// What is drawn, in order.
    pub marks: Vec<Mark>,
    /// What can be touched. No two areas overlap.
    pub touches: Vec<Touch>,
    /// Where each shown row is, with its place in the view.
    pub rows: Vec<(u16, Rect)>,
    /// The bottom of the lines under the title, and the bottom of the room they have.
    pub head_bottom: (Micrometres, Micrometres),
    /// The bottom of the last row, and the bottom of the room for rows.
    pub rows_bottom: (Micrometres, Micrometres),
}

impl Scene {
    /// What is at this point.
    pub fn target_at(&self, x: Micrometres, y: Micrometres) -> Option<Target> {
        let holds =
            |area: Rect| area.x <= x && x < area.right() && area.y <= y && y < area.bottom();
        self.touches.iter().find(|touch| holds(touch.area)).map(|touch| touch.target)
    }

    /// Every line of text, in the order of drawing.
    pub fn words(&self) -> impl Iterator<Item = &str> {
        self.marks.iter().filter_map(|mark| match mark {
            Mark::Text { words, .. } => Some(words.as_str()),
            Mark::Box { .. }
            | Mark::Oval { .. }
            | Mark::Arrow { .. }
            | Mark::Stripes(_)
            | Mark::Sign { .. }
            | Mark::Picture { .. } => None,
        })
    }

    /// Puts left to right and right to left: a screen in a language that is read from the right.
    fn mirror(&mut self, width: Micrometres) {
        let mirror = |area: &mut Rect| area.x = width.minus(area.right());
        self.marks.iter_mut().for_each(|mark| mirror(mark.area_mut()));
        self.touches.iter_mut().for_each(|touch| mirror(&mut touch.area));
        self.rows.iter_mut().for_each(|(_, area)| mirror(area));
    }

    fn place(&mut self, brick: Brick, x: Micrometres, y: Micrometres) {
        let by = evenhand_sheet::Point { x, y };
        self.marks.extend(brick.marks.into_iter().map(|mark| mark.moved(by)));
        self.touches.extend(
            brick.touches.into_iter().map(|touch| Touch { area: touch.area.moved(by), ..touch }),
        );
    }
}

/// The sizes of the pictures of written names, in pixels, by contest and option.
pub type PictureSizes = BTreeMap<(ContestIndex, OptionIndex), (u32, u32)>;

/// All that a screen is made with beside its view.
#[derive(Clone, Copy, Debug)]
pub struct Stage<'a> {
    /// The words.
    pub words: &'a Wording,
    /// The faces.
    pub typesetter: &'a Typesetter,
    /// The glass.
    pub screen: Screen,
    /// The pictures of written names.
    pub pictures: &'a PictureSizes,
}

impl Stage<'_> {
    /// The whole screen; where the voter has hidden it, nothing but that.
    pub fn scene(&self, view: &View) -> Scene {
        let mut scene = if view.is_covered {
            self.uncovered_scene(&cover::view(view))
        } else {
            self.uncovered_scene(view)
        };
        if let Some(target) = cover::touched_anywhere(view) {
            let zero = Micrometres(0);
            let Screen { width, height } = self.screen;
            scene.touches = vec![Touch { target, area: Rect { x: zero, y: zero, width, height } }];
        }
        scene
    }

    fn uncovered_scene(&self, view: &View) -> Scene {
        let regions = Regions::of(self, view);
        let mut scene = Scene::default();
        bands::place(self, view, &regions, &mut scene);
        let head = head::brick(self, view, regions.head.width, regions.head.height);
        let head_bottom = regions.head.y.plus(head.height);
        scene.head_bottom = (head_bottom, regions.head.bottom());
        scene.place(head, regions.head.x, regions.head.y);
        self.place_rows(view, &regions, &mut scene);
        bar::place(self, view, &regions, &mut scene);
        let focused = focus::marks(view, &scene);
        scene.marks.extend(focused);
        if self.words.is_right_to_left(view.comfort.language) {
            scene.mirror(self.screen.width);
        }
        scene
    }

    /// How many rows fit from row `first` on, at least 1.
    pub fn rows_that_fit(&self, view: &View, first: u16) -> u16 {
        let regions = Regions::of(self, view);
        let heights = view
            .rows
            .iter()
            .skip(usize::from(first))
            .map(|row| self.row(view, row, &regions).height);
        let left = view.rows.len().saturating_sub(usize::from(first));
        let room = regions.rows.height;
        // The strip with "more" stands there unless all rows of the screen are shown.
        let least = if first == 0 && !view.has_blocks { Some(left) } else { None };
        fitting(heights, room, more::height(self, view, regions.rows.width), least)
    }

    fn place_rows(&self, view: &View, regions: &Regions, scene: &mut Scene) {
        let area = regions.rows;
        let mut y = area.y;
        let has_strip = view.has_blocks || view.more_above.is_some() || view.more_below.is_some();
        let strip = if has_strip { more::height(self, view, area.width) } else { Micrometres(0) };
        for (index, row) in view.shown_rows() {
            let mut brick = self.row(view, row, regions);
            brick.is_row(index);
            let place = Rect { x: area.x, y, width: area.width, height: brick.height };
            scene.rows.push((index, place));
            scene.place(brick, area.x, y);
            y = place.bottom().plus(GAP);
        }
        scene.rows_bottom =
            (scene.rows.last().map_or(area.y, |(_, row)| row.bottom()), area.bottom().minus(strip));
        more::place(self, view, area, scene);
    }

    /// A row. One that is higher than the room for rows is set in smaller type until it fits.
    fn row(&self, view: &View, row: &Row, regions: &Regions) -> Brick {
        let room = regions.rows.height.minus(more::height(self, view, regions.rows.width));
        let width = regions.rows.width;
        let mut percent = 100;
        loop {
            let brick = self.row_at(view, row, width, percent);
            if brick.height <= room || percent <= SMALLEST_PERCENT {
                return brick;
            }
            percent -= 10;
        }
    }

    fn row_at(&self, view: &View, row: &Row, width: Micrometres, percent: i32) -> Brick {
        match &row.kind {
            RowKind::Oval { filled } => option::oval(self, view, row, *filled, width, percent),
            RowKind::Ranked { ranks, rank } => {
                option::ranked(self, view, row, (*ranks, *rank), width, percent)
            }
            RowKind::Action => action::brick(self, view, row, width, percent),
            RowKind::Summary => summary::brick(self, view, row, width, percent),
            RowKind::Passage => passage::brick(self, view, row, width, percent),
            RowKind::Keys(letters) => keys::brick(self, view, letters, width),
            RowKind::Picture(contest, option) => {
                picture::brick(self, view, row, (*contest, *option), width, percent)
            }
        }
    }

    fn of_type(&self, view: &View, role: Role, is_bold: bool, percent: i32) -> Type {
        let size = view.comfort.size;
        smaller(self.typesetter.type_for(size, role, is_bold), size, role, percent)
    }

    /// From one line of this phrase to the next.
    fn leading(&self, view: &View, phrase: &Phrase, of: Type) -> Micrometres {
        self.typesetter.lines(&self.seen(view, phrase), of, Micrometres(i32::MAX)).leading(of)
    }

    /// From one line of the language's own words to the next: what fixed heights are made with.
    fn own_leading(&self, view: &View, of: Type) -> Micrometres {
        self.leading(view, &Phrase::new(Message::BarBack), of)
    }

    fn seen(&self, view: &View, phrase: &Phrase) -> String {
        self.words.seen(phrase, view.comfort.language)
    }
}

/// How far a text is set smaller, in the steps of [`smaller`], before it may overflow.
const SMALLEST_PERCENT: i32 = -10;

/// How many of these rows fit into a room with a strip at its bottom, at least 1. Where all of them
/// are `whole` many and fit without the strip, there is none. No more are measured than need be.
fn fitting(
    heights: impl Iterator<Item = Micrometres>,
    room: Micrometres,
    strip: Micrometres,
    whole: Option<usize>,
) -> u16 {
    let (mut end, mut without_strip, mut with_strip) = (Micrometres(0), 0usize, 0usize);
    for height in heights {
        end = end.plus(height);
        if end > room {
            break;
        }
        without_strip += 1;
        if end <= room.minus(strip) {
            with_strip = without_strip;
        }
        end = end.plus(GAP);
    }
    let rows = if whole == Some(without_strip) { without_strip } else { with_strip };
    u16::try_from(rows).unwrap_or(u16::MAX).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rows_are_counted_with_their_gaps_and_the_strip() {
        let rows = [Micrometres(20_000); 5];
        let all = Micrometres(20_000 * 5 + GAP.0 * 4);
        let strip = Micrometres(18_000);
        let fit =
            |first: usize, room, whole| fitting(rows.into_iter().skip(first), room, strip, whole);
        assert_eq!(fit(0, all, Some(5)), 5);
        assert_eq!(fit(0, Micrometres(all.0 - 1), Some(5)), 4);
        assert_eq!(fit(3, all, None), 2);
        assert_eq!(fit(1, all, None), 4);
        assert_eq!(fit(0, Micrometres(5_000), Some(5)), 1);
        assert_eq!(fitting(std::iter::empty(), all, strip, Some(0)), 1);
    }
}
