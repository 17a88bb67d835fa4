//! Finding the sheet in a picture by its four corner figures.
//!
//! Nothing is known here of how the figures are drawn, save that they are round and that one differs:
//! their looks are taken from the blank sheet, as the mean ink at growing distances from the middle.

use crate::blobs::{Blob, blobs};
use crate::levels::Levels;
use crate::mapping::{Mapping, Spot};
use crate::plane::Plane;

/// Rings in which a figure's ink is measured.
const RINGS: usize = 12;
/// Directions in which each ring is looked at.
const DIRECTIONS: usize = 24;
/// How far out a figure is looked at, in diameters. Past 0.5 so that the white around it counts.
const REACH: f64 = 0.62;
/// The greatest mean difference of ink, over the rings, at which a blob is still a figure. Own
/// choice: at 200 dpi figures give 0.03 and, blurred by a pixel, 0.05; round letters 0.13 and more.
const LOOKS_MAX: f32 = 0.12;
/// The same at a first glance, a coarse pixel off the middle and size.
const GLANCE_MAX: f32 = 0.3;
/// How much sides and diagonals may differ from the sheet's own shape: scale may differ by 2 %
/// across and down, and the figures' places are found within less than a pixel. Own choice.
const SHAPE_TOLERANCE: f64 = 0.05;
/// How much figures of one picture may differ in size: a pixel of the coarse plane is a twelfth.
const SIZE_TOLERANCE: f64 = 0.2;
/// The most blobs of a figure's size that are looked at: a page of large letters has fewer.
const BLOBS_MAX: usize = 400;
/// The most of them that are taken for figures.
const CANDIDATES_MAX: usize = 16;
/// How far the sheet may be turned, in degrees: three are promised, the rest is room.
pub(crate) const TURN_MAX_DEGREES: f64 = 6.0;

/// The mean ink of one kind of figure at growing distances from its middle.
pub(crate) type Looks = [f32; RINGS];

/// What the figures of one page look like, and where on the page their ink balances.
pub(crate) struct Figures {
    /// Outer diameter in micrometres.
    pub(crate) diameter: f64,
    /// The one that differs.
    pub(crate) first: Looks,
    /// The others.
    pub(crate) other: Looks,
    /// The balance points, the one that differs first, then clockwise on the page.
    pub(crate) anchors: [Spot; 4],
    /// Width of the page in micrometres.
    pub(crate) page_width: f64,
}

/// Two planes of one picture.
pub(crate) struct Planes<'a> {
    /// About 50 pixels an inch.
    pub(crate) coarse: &'a Plane,
    pub(crate) coarse_factor: f64,
    /// About 100 pixels an inch.
    pub(crate) fine: &'a Plane,
    pub(crate) fine_factor: f64,
}

/// Why the sheet wasn't found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum CornerFault {
    /// Fewer than four figures, or four that don't make the sheet's shape.
    Missing { found: u8 },
    /// The figures make a rectangle, but not one of this sheet's length.
    OtherLength,
    /// The figures stand as in a mirror.
    Mirrored,
    /// Turned too far, in degrees.
    Turned(f64),
}

/// A figure found in a picture.
struct Found {
    at: Spot,
    first: bool,
}

/// The map from page to picture.
pub(crate) fn locate(
    planes: &Planes<'_>,
    levels: Levels,
    figures: &Figures,
) -> Result<Mapping, CornerFault> {
    let found = find(planes, levels, figures);
    let count = u8::try_from(found.len()).unwrap_or(u8::MAX);
    let missing = CornerFault::Missing { found: count.min(4) };
    let Some(quad) = best_quad(&found, figures, fits_sheet) else {
        let is_rectangle = best_quad(&found, figures, fits_any_length).is_some();
        return Err(if is_rectangle { CornerFault::OtherLength } else { missing });
    };
    if winding(quad) * winding(figures.anchors) < 0.0 {
        return Err(CornerFault::Mirrored);
    }
    let mapping = Mapping::through(&figures.anchors, &quad).ok_or(missing)?;
    let (left, right) = (mapping.at(0.0, 0.0), mapping.at(figures.page_width, 0.0));
    let turn = (right.y - left.y).atan2(right.x - left.x).to_degrees();
    let from_level = turn.abs().min(180.0 - turn.abs());
    if from_level > TURN_MAX_DEGREES {
        return Err(CornerFault::Turned(turn));
    }
    Ok(mapping)
}

/// All blobs that look like a figure, with their balance points in pixels of the picture.
fn find(planes: &Planes<'_>, levels: Levels, figures: &Figures) -> Vec<Found> {
    let scale = as_f64(planes.coarse.width()) / figures.page_width;
    let usual = figures.diameter * scale;
    let fits = |blob: &Blob| {
        let (width, height) = (as_f64(blob.width()), as_f64(blob.height()));
        // The picture may be wider than the sheet (a scanner's bed), so sizes are held loosely.
        let size = f64::midpoint(width, height);
        (0.5 * usual..=1.7 * usual).contains(&size) && (width - height).abs() <= 0.3 * size + 1.0
    };
    let mut candidates = blobs(planes.coarse, levels.middle());
    candidates.retain(fits);
    candidates.truncate(BLOBS_MAX);
    let mut found = Vec::new();
    for blob in candidates {
        let (x, y) = blob.middle();
        let diameter = f64::midpoint(as_f64(blob.width()), as_f64(blob.height()));
        let to_fine = planes.coarse_factor / planes.fine_factor;
        let near = Spot { x: x * to_fine, y: y * to_fine };
        // The box is a little larger or smaller than the figure, by how pixels fall: half a pixel.
        let diameter = diameter * to_fine;
        // A glance first: most blobs of this size are letters.
        let like = |looks: &Looks| {
            difference(looks, &figures.first).min(difference(looks, &figures.other)) < GLANCE_MAX
        };
        if !looks(planes.fine, levels, near, diameter).is_some_and(|seen| like(&seen)) {
            continue;
        }
        let Some(at) = balance(planes.fine, levels, near, diameter * REACH) else { continue };
        let best = [0.92, 0.96, 1.0, 1.04, 1.08]
            .iter()
            .filter_map(|stretch| looks(planes.fine, levels, at, diameter * stretch))
            .map(|seen| (difference(&seen, &figures.first), difference(&seen, &figures.other)))
            .min_by(|a, b| a.0.min(a.1).total_cmp(&b.0.min(b.1)));
        let Some((as_first, as_other)) = best else { continue };
        if as_first.min(as_other) <= LOOKS_MAX {
            let at = Spot { x: at.x * planes.fine_factor, y: at.y * planes.fine_factor };
            found.push((
                as_first.min(as_other),
                diameter,
                Found { at, first: as_first < as_other },
            ));
        }
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    // A figure's disc may pass for a figure: the one that fits better stands for both.
    let apart = usual * planes.coarse_factor / 2.0;
    let mut kept: Vec<Found> = Vec::new();
    let best = found.first().map_or(0.0, |(_, diameter, _)| *diameter);
    for (_, diameter, figure) in found {
        // All four are of one size.
        if (diameter / best - 1.0).abs() > SIZE_TOLERANCE {
            continue;
        }
        if kept.len() < CANDIDATES_MAX && kept.iter().all(|k| k.at.distance(figure.at) > apart) {
            kept.push(figure);
        }
    }
    kept
}

/// The four found figures that best make a shape, in the anchors' order or in its mirror.
fn best_quad(
    found: &[Found],
    figures: &Figures,
    misfit: fn(&[f64; 6], &[f64; 6]) -> f64,
) -> Option<[Spot; 4]> {
    let wanted = distances(figures.anchors);
    let others: Vec<Spot> = found.iter().filter(|f| !f.first).map(|f| f.at).collect();
    let mut best: Option<(f64, [Spot; 4])> = None;
    for q0 in found.iter().filter(|f| f.first).map(|f| f.at) {
        for &q1 in &others {
            for &q2 in others.iter().filter(|&&q| q != q1) {
                for &q3 in others.iter().filter(|&&q| q != q1 && q != q2) {
                    let quad = [q0, q1, q2, q3];
                    let worst = misfit(&distances(quad), &wanted);
                    if worst <= SHAPE_TOLERANCE && best.is_none_or(|(least, _)| worst < least) {
                        best = Some((worst, quad));
                    }
                }
            }
        }
    }
    best.map(|(_, quad)| quad)
}

/// Four sides and two diagonals.
fn distances([a, b, c, d]: [Spot; 4]) -> [f64; 6] {
    let sides = [a.distance(b), b.distance(c), c.distance(d), d.distance(a)];
    let [ab, bc, cd, da] = sides;
    [ab, bc, cd, da, a.distance(c), b.distance(d)]
}

/// The worst relative difference from the sheet's own shape at any scale.
fn fits_sheet(seen: &[f64; 6], wanted: &[f64; 6]) -> f64 {
    let scale = seen.iter().sum::<f64>() / wanted.iter().sum::<f64>();
    let off = seen.iter().zip(wanted).map(|(side, want)| (side / (want * scale) - 1.0).abs());
    off.fold(0.0, f64::max)
}

/// The worst relative difference from a rectangle, whatever its sides.
fn fits_any_length(seen: &[f64; 6], _: &[f64; 6]) -> f64 {
    let [ab, bc, cd, da, ac, bd] = *seen;
    let off = |one: f64, other: f64| (one / other - 1.0).abs();
    off(ab, cd).max(off(bc, da)).max(off(ac, bd)).max(off(ab.hypot(bc), ac))
}

/// Positive where four points run clockwise (y downwards).
fn winding([a, b, _, d]: [Spot; 4]) -> f64 {
    (b.x - a.x) * (d.y - a.y) - (b.y - a.y) * (d.x - a.x)
}

/// Where the ink around a spot balances, by three steps of weighing what lies within `reach`.
pub(crate) fn balance(plane: &Plane, levels: Levels, near: Spot, reach: f64) -> Option<Spot> {
    let mut at = near;
    for _ in 0..3 {
        at = weigh(plane, levels, at, reach)?;
        if at.distance(near) > reach {
            return None;
        }
    }
    Some(at)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "positions on a plane are far within f32, and the steps within 2^15"
)]
fn weigh(plane: &Plane, levels: Levels, around: Spot, reach: f64) -> Option<Spot> {
    let last = (reach.ceil() as i16).clamp(1, 200);
    let first = last.saturating_neg();
    let (mut sum, mut sum_x, mut sum_y) = (0.0_f64, 0.0_f64, 0.0_f64);
    for row in first..=last {
        for column in first..=last {
            let (x, y) = (f64::from(column), f64::from(row));
            if x.hypot(y) > reach {
                continue;
            }
            let grey = plane.at((around.x + x) as f32, (around.y + y) as f32)?;
            // What is nearly white is paper and noise.
            let weight = f64::from((levels.ink(grey) - 0.25).max(0.0));
            sum += weight;
            sum_x += weight * x;
            sum_y += weight * y;
        }
    }
    (sum > 4.0).then(|| Spot { x: around.x + sum_x / sum, y: around.y + sum_y / sum })
}

/// The mean ink of each ring around a spot.
#[expect(clippy::cast_possible_truncation, reason = "positions on a plane are far within f32")]
pub(crate) fn looks(plane: &Plane, levels: Levels, at: Spot, diameter: f64) -> Option<Looks> {
    let mut seen = [0.0; RINGS];
    let directions = as_f64(DIRECTIONS);
    for (ring, mean) in seen.iter_mut().enumerate() {
        let radius = diameter * REACH * (as_f64(ring) + 0.5) / as_f64(RINGS);
        let mut sum = 0.0;
        for direction in 0..DIRECTIONS {
            let (sine, cosine) =
                (core::f64::consts::TAU * as_f64(direction) / directions).sin_cos();
            let (x, y) = (at.x + radius * cosine, at.y + radius * sine);
            sum += f64::from(levels.ink(plane.at(x as f32, y as f32)?));
        }
        *mean = (sum / directions) as f32;
    }
    Some(seen)
}

/// The mean grey of the darkest ring of the figures.
#[expect(clippy::cast_possible_truncation, reason = "positions on a plane are far within f32")]
pub(crate) fn ink_of_figures(plane: &Plane, mapping: &Mapping, figures: &Figures) -> Option<f32> {
    let (ring, _) = (0_u8..).zip(figures.other).max_by(|a, b| a.1.total_cmp(&b.1))?;
    let radius = figures.diameter * REACH * (f64::from(ring) + 0.5) / as_f64(RINGS);
    let (mut sum, mut count) = (0.0, 0.0);
    for anchor in figures.anchors.iter().skip(1) {
        for direction in 0..DIRECTIONS {
            let angle = core::f64::consts::TAU * as_f64(direction) / as_f64(DIRECTIONS);
            let (sine, cosine) = angle.sin_cos();
            let at = mapping.at(anchor.x + radius * cosine, anchor.y + radius * sine);
            sum += plane.at(at.x as f32, at.y as f32)?;
            count += 1.0;
        }
    }
    Some(sum / count)
}

/// The mean difference of two looks.
pub(crate) fn difference(left: &Looks, right: &Looks) -> f32 {
    let sum: f32 = left.iter().zip(right).map(|(a, b)| (a - b).abs()).sum();
    sum / 12.0
}

#[expect(clippy::cast_precision_loss, reason = "counts of pixels, far below 2^53")]
fn as_f64(count: usize) -> f64 {
    count as f64
}
