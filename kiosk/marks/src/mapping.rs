//! The projective map from a page, in micrometres, to a picture of it, in pixels.

use evenhand_sheet::Point;

/// A position on a plane or a page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spot {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

impl Spot {
    pub(crate) fn of(point: Point) -> Self {
        Self { x: f64::from(point.x.0), y: f64::from(point.y.0) }
    }

    pub(crate) fn distance(self, other: Self) -> f64 {
        (self.x - other.x).hypot(self.y - other.y)
    }
}

/// A projective map of the plane: `x' = (ax x + bx y + cx) / (p x + q y + 1)`, `y'` likewise.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Mapping {
    /// `[ax, bx, cx]`
    across: [f64; 3],
    /// `[ay, by, cy]`
    down: [f64; 3],
    /// `[p, q]`
    below: [f64; 2],
}

impl Mapping {
    /// The one map that takes four points to four others; `None` where three of them lie in a line.
    pub(crate) fn through(from: &[Spot; 4], to: &[Spot; 4]) -> Option<Self> {
        // Page points are scaled to about 1 so that the elimination stays exact enough.
        const SCALE: f64 = 100_000.0;
        let mut rows = [[0.0_f64; 9]; 8];
        for ((pair, source), target) in rows.chunks_exact_mut(2).zip(from).zip(to) {
            let (x, y) = (source.x / SCALE, source.y / SCALE);
            if let [first, second] = pair {
                *first = [x, y, 1.0, 0.0, 0.0, 0.0, -x * target.x, -y * target.x, target.x];
                *second = [0.0, 0.0, 0.0, x, y, 1.0, -x * target.y, -y * target.y, target.y];
            }
        }
        let [ax, bx, cx, ay, by, cy, p, q] = solve(rows)?;
        Some(Self {
            across: [ax / SCALE, bx / SCALE, cx],
            down: [ay / SCALE, by / SCALE, cy],
            below: [p / SCALE, q / SCALE],
        })
    }

    /// Where a point of the page lies on the picture.
    pub(crate) fn at(&self, x: f64, y: f64) -> Spot {
        let line = |[a, b, c]: [f64; 3]| a * x + b * y + c;
        let [p, q] = self.below;
        let below = p * x + q * y + 1.0;
        Spot { x: line(self.across) / below, y: line(self.down) / below }
    }

    /// The same map to the picture made smaller by `factor`.
    pub(crate) fn shrunk(&self, factor: f64) -> Self {
        let smaller = |line: [f64; 3]| line.map(|term| term / factor);
        Self { across: smaller(self.across), down: smaller(self.down), below: self.below }
    }
}

/// Gauss–Jordan elimination with row exchange on eight equations.
fn solve(mut rows: [[f64; 9]; 8]) -> Option<[f64; 8]> {
    for column in 0..8 {
        let (pivot, _) = rows
            .iter()
            .enumerate()
            .skip(column)
            .map(|(index, row)| (index, row.get(column).copied().unwrap_or(0.0).abs()))
            .max_by(|left, right| left.1.total_cmp(&right.1))?;
        rows.swap(column, pivot);
        let lead = *rows.get(column)?;
        let by = *lead.get(column)?;
        if by.abs() < 1e-9 {
            return None;
        }
        for (index, row) in rows.iter_mut().enumerate() {
            let times = row.get(column).copied().unwrap_or(0.0) / by;
            if index == column {
                lead_by(row, by);
            } else {
                row.iter_mut().zip(lead).for_each(|(value, above)| *value -= above * times);
            }
        }
    }
    Some(rows.map(|[.., last]| last))
}

fn lead_by(row: &mut [f64; 9], by: f64) {
    for value in row {
        *value /= by;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn four_points_go_where_they_should() {
        let spots = |list: [(f64, f64); 4]| list.map(|(x, y)| Spot { x, y });
        let from = spots([(0.0, 0.0), (200_000.0, 0.0), (0.0, 270_000.0), (200_000.0, 270_000.0)]);
        let to = spots([(12.0, 30.0), (1590.0, 4.0), (55.0, 2170.0), (1640.0, 2120.0)]);
        let mapping = Mapping::through(&from, &to).unwrap();
        for (source, target) in from.iter().zip(&to) {
            assert!(mapping.at(source.x, source.y).distance(*target) < 1e-6);
        }
    }

    #[test]
    fn points_in_a_line_have_no_map() {
        let line = [0.0, 1.0, 2.0, 3.0].map(|x| Spot { x: x * 1000.0, y: x * 2000.0 });
        assert!(Mapping::through(&line, &line).is_none());
    }
}
