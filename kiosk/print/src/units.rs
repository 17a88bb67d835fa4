//! Micrometres to points, and ellipses.

use std::fmt::Write as _;

use evenhand_rules::Micrometres;
use evenhand_sheet::Rect;

/// Distance of a Bézier's control point from the quarter ellipse's end, for a unit circle:
/// 4/3 (√2 − 1).
pub(crate) const KAPPA_MILLIONTHS: i64 = 552_285;

/// A distance in points (1/72 in).
#[expect(clippy::cast_possible_truncation, reason = "the PDF writer takes f32; 17 in are 1224 pt")]
pub(crate) fn points(distance: Micrometres) -> f32 {
    (f64::from(distance.0) * 72.0 / 25_400.0) as f32
}

/// Adds a distance to a stream as an operand in points, exact to a thousandth of a point.
pub(crate) fn push_operand(stream: &mut String, micrometres: i64) {
    // 1 µm is 360/127 thousandths of a point.
    let doubled = micrometres.saturating_mul(720);
    let thousandths = doubled.saturating_add(127).div_euclid(254);
    let sign = if thousandths < 0 { "-" } else { "" };
    let size = thousandths.unsigned_abs();
    // Writing to a string can't fail.
    let _ = write!(stream, "{sign}{}.{:03} ", size / 1000, size % 1000);
}

/// The twelve points after the start of an ellipse in four Bézier curves, and the start: offsets
/// from the middle in micrometres, y upwards, counter-clockwise from the right.
pub(crate) fn ellipse(area: Rect) -> ((i64, i64), [(i64, i64); 12]) {
    let (rx, ry) = (i64::from(area.width.0) / 2, i64::from(area.height.0) / 2);
    let (kx, ky) = (rx * KAPPA_MILLIONTHS / 1_000_000, ry * KAPPA_MILLIONTHS / 1_000_000);
    let curves = [
        (rx, ky),
        (kx, ry),
        (0, ry),
        (-kx, ry),
        (-rx, ky),
        (-rx, 0),
        (-rx, -ky),
        (-kx, -ry),
        (0, -ry),
        (kx, -ry),
        (rx, -ky),
        (rx, 0),
    ];
    ((rx, 0), curves)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_inch_is_72_points() {
        let operand = |micrometres| {
            let mut stream = String::new();
            push_operand(&mut stream, micrometres);
            stream
        };
        assert_eq!(operand(25_400), "72.000 ");
        assert_eq!(operand(-12_700), "-36.000 ");
        assert_eq!(operand(3_528), "10.001 ");
        assert_eq!(operand(0), "0.000 ");
    }

    #[test]
    #[expect(
        clippy::float_cmp,
        reason = "page boxes must be exact, or a page is a pixel too large"
    )]
    fn page_sizes_are_exact() {
        assert_eq!(points(Micrometres(215_900)), 612.0);
        assert_eq!(points(Micrometres(279_400)), 792.0);
        assert_eq!(points(Micrometres(355_600)), 1008.0);
        assert_eq!(points(Micrometres(431_800)), 1224.0);
    }
}
