//! A grey plane of pixels, made smaller by whole factors, and looked up between pixels.
//!
//! Positions are continuous: pixel `i` covers `i` to `i + 1`, its middle is `i + 0.5`. So a position
//! on a plane that was made smaller by `f` is the position on the first one divided by `f`.
#![expect(
    clippy::indexing_slicing,
    clippy::arithmetic_side_effects,
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    clippy::cast_sign_loss,
    reason = "the loops over all pixels: every index is held to the plane's own size just before, \
              sums of at most 32 x 32 bytes fit in u32, and sizes are below 2^24"
)]

use image::GrayImage;

/// Grey pixels in rows, 0 black to 255 white.
pub(crate) struct Plane {
    width: usize,
    height: usize,
    data: Vec<u8>,
}

impl Plane {
    /// The picture made smaller by a whole factor: each pixel is the mean of `factor` × `factor`.
    /// What is left over at the right and the bottom is dropped.
    pub(crate) fn shrunk(picture: &GrayImage, factor: usize) -> Self {
        let factor = factor.clamp(1, 32);
        let stride = picture.width() as usize;
        let width = stride / factor;
        let height = picture.height() as usize / factor;
        let source = picture.as_raw();
        let mut data = Vec::with_capacity(width * height);
        if factor == 1 {
            data.extend_from_slice(source);
            return Self { width, height, data };
        }
        let mut sums = vec![0_u16; width * factor];
        // 2^16 / area, so that the mean is a multiplication; the rounding error is below 1/64 grey.
        let share = (65_536 / (factor * factor)) as u32;
        for row in 0..height {
            let first = row * factor * stride;
            sums.iter_mut().zip(&source[first..]).for_each(|(sum, &v)| *sum = u16::from(v));
            for line in 1..factor {
                let from = first + line * stride;
                for (sum, &value) in sums.iter_mut().zip(&source[from..]) {
                    *sum += u16::from(value);
                }
            }
            if factor == 2 {
                let pairs = sums.chunks_exact(2);
                data.extend(pairs.map(|pair| ((pair[0] + pair[1] + 2) >> 2) as u8));
            } else {
                data.extend(sums.chunks_exact(factor).map(|group| {
                    let sum: u32 = group.iter().map(|&v| u32::from(v)).sum();
                    ((sum * share + 32_768) >> 16).min(255) as u8
                }));
            }
        }
        Self { width, height, data }
    }

    /// This plane made smaller once more.
    pub(crate) fn shrunk_again(&self, factor: usize) -> Self {
        let factor = factor.clamp(1, 32);
        let (width, height) = (self.width / factor, self.height / factor);
        let area = (factor * factor) as u32;
        let mut data = Vec::with_capacity(width * height);
        let mut sums = vec![0_u16; width * factor];
        for row in 0..height {
            sums.fill(0);
            for line in 0..factor {
                let from = (row * factor + line) * self.width;
                for (sum, &value) in sums.iter_mut().zip(&self.data[from..]) {
                    *sum += u16::from(value);
                }
            }
            data.extend(sums.chunks_exact(factor).map(|group| {
                let sum: u32 = group.iter().map(|&v| u32::from(v)).sum();
                ((sum + area / 2) / area).min(255) as u8
            }));
        }
        Self { width, height, data }
    }

    pub(crate) fn width(&self) -> usize {
        self.width
    }

    pub(crate) fn height(&self) -> usize {
        self.height
    }

    pub(crate) fn pixels(&self) -> &[u8] {
        &self.data
    }

    /// The value at a position, between the four pixels around it; `None` outside the plane.
    pub(crate) fn at(&self, x: f32, y: f32) -> Option<f32> {
        let view = View { width: self.width, height: self.height, data: &self.data };
        view.at(x, y)
    }

    /// The plane as a borrowed view.
    pub(crate) fn view(&self) -> View<'_> {
        View { width: self.width, height: self.height, data: &self.data }
    }
}

/// A borrowed plane: a picture as it came, or a [`Plane`].
#[derive(Clone, Copy)]
pub(crate) struct View<'a> {
    width: usize,
    height: usize,
    data: &'a [u8],
}

impl<'a> View<'a> {
    pub(crate) fn of(picture: &'a GrayImage) -> Self {
        Self {
            width: picture.width() as usize,
            height: picture.height() as usize,
            data: picture.as_raw(),
        }
    }

    /// The value at a position, between the four pixels around it; `None` outside. In the outer half
    /// pixel the edge's own value stands.
    pub(crate) fn at(&self, x: f32, y: f32) -> Option<f32> {
        let inside = x >= 0.0 && y >= 0.0 && x <= self.width as f32 && y <= self.height as f32;
        if !inside || self.width < 2 || self.height < 2 {
            return None;
        }
        let x = (x - 0.5).clamp(0.0, (self.width - 1) as f32 - 0.001);
        let y = (y - 0.5).clamp(0.0, (self.height - 1) as f32 - 0.001);
        let column = (x as usize).min(self.width - 2);
        let row = (y as usize).min(self.height - 2);
        let (right, down) = (x - column as f32, y - row as f32);
        let at = row * self.width + column;
        let upper = mix(self.data[at], self.data[at + 1], right);
        let lower = mix(self.data[at + self.width], self.data[at + self.width + 1], right);
        Some(upper + (lower - upper) * down)
    }

    /// Fills `out`, a row of samples from `(x, y)` on in steps of `(step_x, step_y)`, by whole-number
    /// arithmetic. Samples outside the plane get `outside`.
    pub(crate) fn row(&self, start: (f64, f64), step: (f64, f64), outside: u8, out: &mut [u8]) {
        if self.width < 2 || self.height < 2 || out.is_empty() {
            out.fill(outside);
            return;
        }
        let last = (out.len() - 1) as f64;
        let end = (start.0 + step.0 * last, start.1 + step.1 * last);
        let (right_most, lowest) = ((self.width - 1) as f64, (self.height - 1) as f64);
        let within = |(x, y): (f64, f64)| {
            x - 0.5 >= 0.0 && y - 0.5 >= 0.0 && x - 0.5 < right_most && y - 0.5 < lowest
        };
        if !(within(start) && within(end)) {
            for (index, value) in out.iter_mut().enumerate() {
                let n = index as f64;
                let (x, y) = (start.0 + step.0 * n, start.1 + step.1 * n);
                *value = self.at(x as f32, y as f32).map_or(outside, |found| (found + 0.5) as u8);
            }
            return;
        }
        let fixed = |value: f64| (value * 65_536.0) as i64;
        let (mut x, mut y) = (fixed(start.0 - 0.5), fixed(start.1 - 0.5));
        let (step_x, step_y) = (fixed(step.0), fixed(step.1));
        for value in out {
            let (column, row) = ((x >> 16) as usize, (y >> 16) as usize);
            let (right, down) = (((x >> 8) & 255) as u32, ((y >> 8) & 255) as u32);
            let at = row * self.width + column;
            // One check for all four neighbours.
            let Some(near) = self.data.get(at..at + self.width + 2) else { continue };
            let above = u32::from(near[0]) * (256 - right) + u32::from(near[1]) * right;
            let below = u32::from(near[self.width]) * (256 - right)
                + u32::from(near[self.width + 1]) * right;
            *value = ((above * (256 - down) + below * down + 32_768) >> 16) as u8;
            x += step_x;
            y += step_y;
        }
    }
}

fn mix(left: u8, right: u8, share: f32) -> f32 {
    let left = f32::from(left);
    left + (f32::from(right) - left) * share
}
