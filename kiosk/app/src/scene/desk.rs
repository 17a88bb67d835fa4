//! A worker's screen as shapes: stripes and the word "worker" along the top, then what is to be
//! done. Nothing of a voter's is here.

use std::collections::BTreeSet;

use evenhand_duty::{Button, Line, Message, Place, Sheet, Tone};
use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;
use evenhand_visit::{Target, TypeSize};
use evenhand_words::WorkerWords;

use super::brick::Brick;
use super::regions::Screen;
use super::{Mark, SMALLEST_PERCENT, Scene, bands, focus};
use crate::metrics::{
    BAND, CORNER, EDGE, EDGE_CHOSEN, GAP, GUTTER, MARGIN, MEASURE_EMS, PADDING, PADDING_SIDE,
    PixelPitch, Role, TOUCH_MIN, Type, smaller,
};
use crate::palette::Tint;
use crate::typesetter::Typesetter;

/// The size of a worker's type: the default band of the standard.
const SIZE: TypeSize = TypeSize::Medium;
/// The most that a row is wide.
const ROW_MOST: Micrometres = Micrometres(220_000);
/// Keys side by side.
const KEYS_ACROSS: usize = 10;
/// The most that a key is wide.
const KEY_MOST: Micrometres = Micrometres(26_000);
const ZERO: Micrometres = Micrometres(0);

/// All that a worker's screen is made with beside its sheet.
#[derive(Clone, Copy)]
pub struct Desk<'a> {
    /// The words.
    pub words: &'a WorkerWords,
    /// The faces.
    pub typesetter: &'a Typesetter,
    /// The glass.
    pub screen: Screen,
    /// Its pixels.
    pub pitch: PixelPitch,
    /// How a button is called in the station's file.
    pub name_of: &'a dyn Fn(Button) -> String,
}

impl std::fmt::Debug for Desk<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "Desk({:?})", self.screen)
    }
}

impl Desk<'_> {
    /// The whole screen, in type that is set smaller until all of it fits.
    pub fn scene(&self, sheet: &Sheet) -> Scene {
        let mut percent = 100;
        loop {
            let scene = self.scene_at(sheet, percent);
            let (bottom, room) = scene.rows_bottom;
            if bottom <= room || percent <= SMALLEST_PERCENT {
                return scene;
            }
            percent -= 10;
        }
    }

    /// So many pixels.
    fn pixels(&self, count: u16) -> Micrometres {
        // Rounded up, so that it is no pixel less when it is drawn.
        self.pitch.distance(f32::from(count)).plus(Micrometres(1))
    }

    /// The nearest whole pixel to a place.
    fn on_a_pixel(&self, place: Micrometres) -> Micrometres {
        self.pitch.distance(self.pitch.pixels(place).round()).plus(Micrometres(1))
    }

    fn scene_at(&self, sheet: &Sheet, percent: i32) -> Scene {
        let mut scene = Scene::default();
        if let Some((cells, touched)) = &sheet.grid {
            self.grid(sheet, (*cells, touched), percent, &mut scene);
            return scene;
        }
        let top = self.bands(sheet, percent, &mut scene);
        let bar = self.bar(sheet, percent, &mut scene);
        let width = self.screen.width.minus(MARGIN.times(2));
        let mut room = Rect { x: MARGIN, y: top, width, height: bar.minus(GAP).minus(top) };
        // On a wide screen the box has the right half, else the lower part.
        let place = sheet.card.map(|(wide, high)| {
            let (wide, high) = (self.pixels(wide), self.pixels(high));
            if self.screen.is_wide() {
                let half = width.minus(GUTTER).half();
                let x = MARGIN.plus(half).plus(GUTTER);
                room.width = half;
                let spare = |room: Micrometres, own: Micrometres| room.minus(own).half();
                Rect {
                    x: x.plus(spare(half, wide)),
                    y: top.plus(spare(room.height, high)),
                    width: wide,
                    height: high,
                }
            } else {
                room.height = room.height.minus(high).minus(GAP.times(2));
                let x = MARGIN.plus(width.minus(wide).half());
                Rect { x, y: room.bottom().plus(GAP), width: wide, height: high }
            }
        });
        if let Some(area) = place {
            let area = Rect { x: self.on_a_pixel(area.x), y: self.on_a_pixel(area.y), ..area };
            let edge = Some((Tint::Ink, EDGE.times(2)));
            scene.marks.push(Mark::Box { area, fill: None, edge, corner: ZERO });
        }
        let head = self.head(sheet, room.width, percent);
        let y = room.y.plus(head.height);
        scene.head_bottom = (y, room.bottom());
        scene.place(head, room.x, room.y);
        let mut rest = Rect { y: y.plus(GAP.times(2)), ..room };
        if sheet.shows_colors {
            rest.y = self.colors(rest, percent, &mut scene);
        }
        if !sheet.keys.is_empty() {
            rest.y = self.keys(&sheet.keys, rest, percent, &mut scene);
        }
        let y = self.rows(sheet, rest, percent, &mut scene);
        scene.rows_bottom = (y, room.bottom());
        let focused = sheet.focus.map(target).and_then(|target| {
            scene.touches.iter().find(|touch| touch.target == target).map(|touch| touch.area)
        });
        scene.marks.extend(focused.into_iter().flat_map(focus::outlines));
        scene
    }

    fn seen(&self, line: &Line) -> String {
        self.words.seen(line, self.name_of)
    }

    fn of_type(&self, role: Role, is_bold: bool, percent: i32) -> Type {
        smaller(self.typesetter.type_for(SIZE, role, is_bold), SIZE, role, percent)
    }

    /// The stripes, the word, the step and a notice. Gives where the rest begins.
    fn bands(&self, sheet: &Sheet, percent: i32, scene: &mut Scene) -> Micrometres {
        let width = self.screen.width;
        let stripes = Rect { x: ZERO, y: ZERO, width, height: BAND };
        scene.marks.push(Mark::Stripes(stripes));
        let of = self.of_type(Role::Text, true, percent);
        let mut words = self.seen(&Line::new(Message::WorkerBand));
        if let Some(place) = &sheet.place {
            words = format!("{words} · {}", self.seen(place));
        }
        let mut brick = Brick::default();
        let lines = self.typesetter.lines(&words, of, width.minus(MARGIN.times(2)));
        let end = brick.lines(&lines, of, Tint::Ink, ZERO, ZERO);
        scene.place(brick, MARGIN, BAND.plus(PADDING));
        let mut y = BAND.plus(PADDING).plus(end);
        if let Some((tone, line)) = &sheet.notice {
            let tone = match tone {
                Tone::News => evenhand_visit::Tone::Normal,
                Tone::Caution => evenhand_visit::Tone::Caution,
                Tone::Fault => evenhand_visit::Tone::Fault,
            };
            let width = width.minus(MARGIN.times(2));
            let brick = bands::notice_of(self.typesetter, &self.seen(line), of, tone, width);
            y = y.plus(GAP);
            let bottom = y.plus(brick.height);
            scene.place(brick, MARGIN, y);
            y = bottom;
        }
        y.plus(GAP.times(2))
    }

    fn head(&self, sheet: &Sheet, width: Micrometres, percent: i32) -> Brick {
        let mut brick = Brick::default();
        let heading = self.of_type(Role::Heading, true, percent);
        let lines = self.typesetter.lines(&self.seen(&sheet.heading), heading, width);
        let mut y = brick.lines(&lines, heading, Tint::Ink, ZERO, ZERO);
        let text = self.of_type(Role::Text, false, percent);
        let measure = Micrometres(width.0.min(text.em.times(MEASURE_EMS).0));
        for line in &sheet.lines {
            let lines = self.typesetter.lines(&self.seen(line), text, measure);
            y = brick.lines(&lines, text, Tint::Ink, ZERO, y.plus(text.em.half()));
        }
        brick.height = y;
        brick
    }

    /// Keys in rows of ten, each as large as a finger needs. Gives where the rest begins.
    fn keys(&self, keys: &[char], room: Rect, percent: i32, scene: &mut Scene) -> Micrometres {
        let gaps = i32::try_from(KEYS_ACROSS).unwrap_or(1).saturating_sub(1);
        let across = i32::try_from(KEYS_ACROSS).unwrap_or(1);
        let width = Micrometres(room.width.minus(GAP.times(gaps)).0 / across);
        let width = Micrometres(width.0.clamp(TOUCH_MIN.0, KEY_MOST.0));
        let (mut key, mut y) = (0u16, room.y);
        for line in keys.chunks(KEYS_ACROSS) {
            let mut x = room.x;
            let mut height = TOUCH_MIN;
            for letter in line {
                let shown = if *letter == ' ' {
                    self.seen(&Line::new(Message::TypeSpace))
                } else {
                    letter.to_string()
                };
                let mut brick = self.worded(&shown, width, (false, percent), PADDING);
                height = brick.height;
                let area = Rect { x: ZERO, y: ZERO, width, height };
                brick.touch(Target::Key { row: 0, key }, area);
                scene.place(brick, x, y);
                x = x.plus(width).plus(GAP);
                key = key.saturating_add(1);
            }
            y = y.plus(height).plus(GAP);
        }
        y.plus(GAP)
    }

    /// A box of each of the grounds that words stand on, with a word. Gives where the rest begins.
    fn colors(&self, room: Rect, percent: i32, scene: &mut Scene) -> Micrometres {
        use evenhand_visit::Tone::{Caution, Fault, Normal};
        let tones = [Normal, Caution, Fault].map(|tone| (Tint::Block(tone), Tint::SignOn(tone)));
        let grounds = [(Tint::Ink, Tint::Ground)].into_iter().chain(tones);
        let width = Micrometres(room.width.minus(GAP.times(3)).0 / 4);
        let of = self.of_type(Role::Text, true, percent);
        let word = self.seen(&Line::new(Message::ColorsWord));
        let lines = self.typesetter.lines(&word, of, width.minus(PADDING));
        let leading = lines.leading(of).times(i32::try_from(lines.lines.len()).unwrap_or(1));
        let height = leading.plus(PADDING.times(2));
        let mut x = room.x;
        for (ground, ink) in grounds {
            let mut brick = Brick { height, ..Brick::default() };
            let area = Rect { x: ZERO, y: ZERO, width, height };
            brick.marks.push(Mark::Box { area, fill: Some(ground), edge: None, corner: ZERO });
            brick.centred(&lines, of, ink, area);
            scene.place(brick, x, room.y);
            x = x.plus(width).plus(GAP);
        }
        room.y.plus(height).plus(GAP.times(2))
    }

    /// Cells over the whole glass; one that was touched is filled. The words lie in the middle.
    fn grid(
        &self,
        sheet: &Sheet,
        ((columns, rows), touched): ((u16, u16), &BTreeSet<u16>),
        percent: i32,
        scene: &mut Scene,
    ) {
        // From edge to edge, whatever is left over by dividing.
        let edge = |of: Micrometres, place: u16, count: u16| {
            let whole = i64::from(of.0).saturating_mul(i64::from(place));
            Micrometres(i32::try_from(whole / i64::from(count.max(1))).unwrap_or(of.0))
        };
        for cell in 0..columns.saturating_mul(rows) {
            let (column, row) = (cell % columns.max(1), cell / columns.max(1));
            let (x, y) =
                (edge(self.screen.width, column, columns), edge(self.screen.height, row, rows));
            let right = edge(self.screen.width, column.saturating_add(1), columns);
            let bottom = edge(self.screen.height, row.saturating_add(1), rows);
            let area = Rect { x, y, width: right.minus(x), height: bottom.minus(y) };
            let fill = touched.contains(&cell).then_some(Tint::Block(evenhand_visit::Tone::Normal));
            let edge = Some((Tint::Press, EDGE));
            scene.marks.push(Mark::Box { area, fill, edge, corner: ZERO });
            scene.touches.push(super::Touch { target: Target::Key { row: 0, key: cell }, area });
        }
        let width = self.screen.width.times(6).0 / 10;
        let mut brick = self.head(sheet, Micrometres(width).minus(PADDING_SIDE.times(2)), percent);
        let text = self.of_type(Role::Text, false, percent);
        if let Some(back) = &sheet.back {
            let room = Micrometres(width).minus(PADDING_SIDE.times(2));
            let lines = self.typesetter.lines(&self.seen(back), text, room);
            brick.height =
                brick.lines(&lines, text, Tint::Ink, ZERO, brick.height.plus(text.em.half()));
        }
        let height = brick.height.plus(PADDING.times(2));
        let x = self.screen.width.minus(Micrometres(width)).half();
        let y = self.screen.height.minus(height).half();
        let area = Rect { x, y, width: Micrometres(width), height };
        let edge = Some((Tint::Ink, EDGE));
        scene.marks.push(Mark::Box { area, fill: Some(Tint::Ground), edge, corner: ZERO });
        scene.place(brick, x.plus(PADDING_SIDE), y.plus(PADDING));
    }

    /// The rows, two side by side where there are several. Gives their bottom.
    fn rows(&self, sheet: &Sheet, room: Rect, percent: i32, scene: &mut Scene) -> Micrometres {
        let across = if sheet.rows.len() > 1 { 2 } else { 1 };
        let gaps = GAP.times(i32::try_from(across).unwrap_or(1).saturating_sub(1));
        let width = if across == 2 { room.width.minus(gaps).half() } else { room.width };
        // One alone isn't drawn out over a wide screen.
        let width = Micrometres(width.0.min(ROW_MOST.0));
        let mut y = room.y;
        for (pair, lines) in (0u16..).zip(sheet.rows.chunks(across)) {
            let bricks: Vec<Brick> =
                lines.iter().map(|line| self.button(line, width, (false, percent))).collect();
            let height = bricks.iter().map(|brick| brick.height).max().unwrap_or_default();
            for (column, mut brick) in (0u16..).zip(bricks) {
                let row = pair.saturating_mul(2).saturating_add(column);
                let x = room.x.plus(width.plus(GAP).times(i32::from(column)));
                let area = Rect { x: ZERO, y: ZERO, width, height: brick.height };
                brick.touch(Target::Row(row), area);
                scene.rows.push((row, Rect { x, y, width, height: brick.height }));
                scene.place(brick, x, y);
            }
            y = y.plus(height).plus(GAP);
        }
        y
    }

    /// Back at the left, on at the right. Gives the bar's top.
    fn bar(&self, sheet: &Sheet, percent: i32, scene: &mut Scene) -> Micrometres {
        let width = Micrometres(self.screen.width.minus(MARGIN.times(2)).minus(GAP.times(2)).0 / 3);
        let right = self.screen.width.minus(MARGIN).minus(width);
        let places = [
            (&sheet.back, Target::Back, MARGIN, false),
            (&sheet.forward, Target::Forward, right, true),
        ];
        let mut top = self.screen.height;
        for (line, target, x, is_bold) in places {
            // An empty place keeps its height: nothing moves.
            let known = Line::new(Message::BarBack);
            let mut brick = self.button(line.as_ref().unwrap_or(&known), width, (is_bold, percent));
            let height = brick.height;
            top = self.screen.height.minus(height).minus(GAP).min(top);
            if line.is_some() {
                brick.touch(target, Rect { x: ZERO, y: ZERO, width, height });
                scene.place(brick, x, self.screen.height.minus(height).minus(GAP));
            }
        }
        top
    }

    fn button(&self, line: &Line, width: Micrometres, how: (bool, i32)) -> Brick {
        self.worded(&self.seen(line), width, how, PADDING_SIDE)
    }

    /// Something to press, with these words in it.
    fn worded(
        &self,
        words: &str,
        width: Micrometres,
        (is_bold, percent): (bool, i32),
        side: Micrometres,
    ) -> Brick {
        let mut brick = Brick::default();
        let of = self.of_type(Role::Text, is_bold, percent);
        let lines = self.typesetter.lines(words, of, width.minus(side.times(2)));
        let leading = lines.leading(of).times(i32::try_from(lines.lines.len()).unwrap_or(1));
        brick.height = Micrometres(leading.plus(PADDING.times(2)).0.max(TOUCH_MIN.0));
        let area = Rect { x: ZERO, y: ZERO, width, height: brick.height };
        let edge = if is_bold { EDGE_CHOSEN.plus(EDGE) } else { EDGE.times(2) };
        let edge = Some((Tint::Press, edge));
        brick.marks.push(Mark::Box { area, fill: None, edge, corner: CORNER });
        brick.centred(&lines, of, Tint::Ink, area);
        brick
    }
}

/// A worker's place as the window knows it.
const fn target(place: Place) -> Target {
    match place {
        Place::Row(row) => Target::Row(row),
        Place::Key(key) => Target::Key { row: 0, key },
        Place::Back => Target::Back,
        Place::Forward => Target::Forward,
    }
}
