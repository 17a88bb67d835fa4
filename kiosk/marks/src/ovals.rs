//! How dark each oval is inside its outline, and whether the outline is there.

use evenhand_rules::{OvalReading, Permille, Verdict};
use evenhand_sheet::Oval;

use crate::compare::Moves;
use crate::levels::Levels;
use crate::mapping::Mapping;
use crate::plane::View;

/// Up to this share of ink an oval is empty. Own inference: noise and specks stay below 20, the
/// resting of a pen's tip (0.5 mm²) is about 40.
pub const EMPTY_MAX: Permille = Permille(60);
/// From this share of ink on an oval is marked. Own inference: two strokes of a pen of 0.5 mm through
/// it (a tick, a cross) cover a fifth; what a printer fills is above 950.
pub const MARKED_MIN: Permille = Permille(200);

/// Between the outline's inner edge and what is looked at: blur and half a pixel. Micrometres.
const INSET: f64 = 200.0;
/// From one look to the next. Micrometres.
const STEP: f64 = 170.0;
/// The most looks in a row: an oval twice as wide as ours.
const LOOKS_MAX: usize = 96;
/// Where on the outline it is looked for.
const OUTLINE_LOOKS: u16 = 36;
/// Share of ink at which the outline is there; a line of 0.3 mm at 200 dpi is never below 0.5.
const OUTLINE_INK: f32 = 0.3;
/// How many of the looks must find it.
const OUTLINE_FOUND_MIN: u16 = 30;

/// A picture with all that is needed to look at places of the page.
pub(crate) struct Sight<'a> {
    pub(crate) picture: View<'a>,
    pub(crate) levels: Levels,
    pub(crate) mapping: &'a Mapping,
    pub(crate) moves: &'a Moves,
    /// From grey to ink, 0 to 255.
    pub(crate) table: [u8; 256],
}

impl Sight<'_> {
    /// The ink, 0 to 1, at a place of the page moved by `moved`; none outside the picture.
    #[expect(clippy::cast_possible_truncation, reason = "positions are far within f32")]
    pub(crate) fn ink(&self, x: f64, y: f64, moved: (f64, f64)) -> f32 {
        let at = self.mapping.at(x + moved.0, y + moved.1);
        self.picture.at(at.x as f32, at.y as f32).map_or(0.0, |grey| self.levels.ink(grey))
    }
}

impl Sight<'_> {
    /// The ink, 0 to 255, at places `step` apart to the right from `(x, y)` on, moved by `moved`.
    pub(crate) fn row(&self, x: f64, y: f64, step: f64, moved: (f64, f64), out: &mut [u8]) {
        let last = u32::try_from(out.len()).unwrap_or(u32::MAX).saturating_sub(1);
        let steps = f64::from(last.max(1));
        let start = self.mapping.at(x + moved.0, y + moved.1);
        let end = self.mapping.at(x + moved.0 + step * f64::from(last), y + moved.1);
        let by = ((end.x - start.x) / steps, (end.y - start.y) / steps);
        self.picture.row((start.x, start.y), by, u8::MAX, out);
        for value in out {
            *value = self.table.get(usize::from(*value)).copied().unwrap_or(0);
        }
    }
}

/// The shape of an oval: its middle and half its width and height, to the outline's middle line.
struct Shape {
    x: f64,
    y: f64,
    across: f64,
    down: f64,
}

impl Shape {
    fn of(oval: &Oval) -> Self {
        let (across, down) =
            (f64::from(oval.area.width.0) / 2.0, f64::from(oval.area.height.0) / 2.0);
        let (x, y) = (f64::from(oval.area.x.0) + across, f64::from(oval.area.y.0) + down);
        Self { x, y, across, down }
    }
}

/// The share of ink inside the outline, 0 to 1.
pub(crate) fn darkness(sight: &Sight<'_>, oval: &Oval) -> f32 {
    let shape = Shape::of(oval);
    let moved = sight.moves.at(shape.x, shape.y);
    let inset = f64::from(oval.stroke.0) / 2.0 + INSET;
    let (across, down) = ((shape.across - inset).max(STEP), (shape.down - inset).max(STEP));
    let mut line = [0_u8; LOOKS_MAX];
    let (mut sum, mut count) = (0_u32, 0_u16);
    let mut y = -down + STEP / 2.0;
    while y < down {
        let half = across * (1.0 - (y / down) * (y / down)).max(0.0).sqrt();
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "not negative, and casts from float are held to the range"
        )]
        let looks = (2.0 * half / STEP) as usize;
        let looks = looks.saturating_add(1).min(LOOKS_MAX);
        if let Some(seen) = line.get_mut(..looks) {
            sight.row(shape.x - half, shape.y + y, STEP, moved, seen);
            sum = seen.iter().fold(sum, |sum, &ink| sum.saturating_add(u32::from(ink)));
            count = count.saturating_add(u16::try_from(looks).unwrap_or(0));
        }
        y += STEP;
    }
    #[expect(clippy::cast_precision_loss, reason = "at most 2^16 looks of 255")]
    let sum = sum as f32;
    sum / (255.0 * f32::from(count.max(1)))
}

/// Whether the outline is where it should be.
pub(crate) fn has_outline(sight: &Sight<'_>, oval: &Oval) -> bool {
    let shape = Shape::of(oval);
    let moved = sight.moves.at(shape.x, shape.y);
    let found = (0..OUTLINE_LOOKS)
        .filter(|&look| {
            let angle = core::f64::consts::TAU * f64::from(look) / f64::from(OUTLINE_LOOKS);
            let (sine, cosine) = angle.sin_cos();
            // On the line first, where it nearly always is; half a pixel in, half a pixel out.
            [0.0, -60.0, 60.0].iter().any(|off| {
                let x = shape.x + (shape.across + off) * cosine;
                let y = shape.y + (shape.down + off) * sine;
                sight.ink(x, y, moved) >= OUTLINE_INK
            })
        })
        .count();
    found >= usize::from(OUTLINE_FOUND_MIN)
}

/// What an oval's darkness means, `blank` being what the empty oval itself has inside.
pub(crate) fn judge(oval: &Oval, seen: f32, blank: f32) -> OvalReading {
    let share = ((seen - blank) / (1.0 - blank).max(0.1)).clamp(0.0, 1.0);
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a share of 0 to 1 times 1000"
    )]
    let darkness = (share * 1000.0).round() as u16;
    let verdict = if darkness <= EMPTY_MAX.0 {
        Verdict::Empty
    } else if darkness >= MARKED_MIN.0 {
        Verdict::Marked
    } else {
        Verdict::Doubtful
    };
    let margin = darkness.abs_diff(EMPTY_MAX.0).min(darkness.abs_diff(MARKED_MIN.0));
    OvalReading { oval: oval.id, darkness: Permille(darkness), verdict, margin: Permille(margin) }
}
