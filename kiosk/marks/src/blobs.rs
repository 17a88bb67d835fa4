//! Patches of connected dark pixels on a small plane.
#![expect(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::cast_precision_loss,
    reason = "the loop over all pixels: each index is checked against the plane's size before use, \
              and sizes are far below 2^24"
)]

use crate::plane::Plane;

/// The box around one patch, in pixels; `right` and `bottom` are past its last pixel.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Blob {
    left: usize,
    top: usize,
    right: usize,
    bottom: usize,
}

impl Blob {
    pub(crate) fn width(&self) -> usize {
        self.right - self.left
    }

    pub(crate) fn height(&self) -> usize {
        self.bottom - self.top
    }

    /// The middle of the box as a continuous position.
    pub(crate) fn middle(&self) -> (f64, f64) {
        ((self.left + self.right) as f64 / 2.0, (self.top + self.bottom) as f64 / 2.0)
    }
}

/// Every patch of pixels darker than `limit`, joined by sides and corners, from the top down.
pub(crate) fn blobs(plane: &Plane, limit: f32) -> Vec<Blob> {
    let (width, height) = (plane.width(), plane.height());
    let mut dark: Vec<bool> =
        plane.pixels().iter().map(|&value| f32::from(value) < limit).collect();
    let mut found = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    for start in 0..dark.len() {
        if !dark[start] {
            continue;
        }
        dark[start] = false;
        open.push(start);
        let (column, row) = (start % width, start / width);
        let mut blob = Blob { left: column, top: row, right: column + 1, bottom: row + 1 };
        while let Some(at) = open.pop() {
            let (column, row) = (at % width, at / width);
            blob.left = blob.left.min(column);
            blob.right = blob.right.max(column + 1);
            blob.top = blob.top.min(row);
            blob.bottom = blob.bottom.max(row + 1);
            for y in row.saturating_sub(1)..(row + 2).min(height) {
                for x in column.saturating_sub(1)..(column + 2).min(width) {
                    let next = y * width + x;
                    if dark[next] {
                        dark[next] = false;
                        open.push(next);
                    }
                }
            }
        }
        found.push(blob);
    }
    found
}
