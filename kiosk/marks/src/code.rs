//! The Data Matrix code (ISO/IEC 16022), read at its known place once the sheet has been found.

use datamatrix::DataMatrix;
use evenhand_sheet::{Code, Payload};

use crate::levels::Levels;
use crate::mapping::Mapping;
use crate::plane::View;

/// Where in a module it is looked at, in hundredths of its side: the middle six tenths, so that
/// neighbours don't bleed in.
const LOOKS: [f64; 4] = [0.2, 0.4, 0.6, 0.8];

/// What the code says, or nothing where it is beyond repair.
///
/// `place` gives the origin, module and column count; its own modules are not looked at.
pub(crate) fn read(
    picture: View<'_>,
    levels: Levels,
    mapping: &Mapping,
    place: &Code,
) -> Option<Payload> {
    let side = f64::from(place.module.0);
    let columns = usize::from(place.columns);
    let rows = place.modules.len().checked_div(columns)?;
    let mut modules = Vec::with_capacity(place.modules.len());
    for row in 0..rows {
        for column in 0..columns {
            let x = f64::from(place.origin.x.0) + side * as_f64(column);
            let y = f64::from(place.origin.y.0) + side * as_f64(row);
            modules.push(mean(picture, mapping, (x, y), side)? < levels.middle());
        }
    }
    let bytes = DataMatrix::decode(&modules, columns).ok()?;
    Payload::decode(&bytes).ok()
}

/// What the page's own code says, from its geometry.
pub(crate) fn expected(code: &Code) -> Option<Payload> {
    let bytes = DataMatrix::decode(&code.modules, usize::from(code.columns)).ok()?;
    Payload::decode(&bytes).ok()
}

/// The mean grey of a module; `None` where it lies outside the picture.
#[expect(clippy::cast_possible_truncation, reason = "positions on a picture are far within f32")]
fn mean(picture: View<'_>, mapping: &Mapping, (x, y): (f64, f64), side: f64) -> Option<f32> {
    let mut sum = 0.0;
    for down in LOOKS {
        for across in LOOKS {
            let at = mapping.at(x + side * across, y + side * down);
            sum += picture.at(at.x as f32, at.y as f32)?;
        }
    }
    Some(sum / 16.0)
}

#[expect(clippy::cast_precision_loss, reason = "a code has fewer than 200 modules a row")]
fn as_f64(count: usize) -> f64 {
    count as f64
}
