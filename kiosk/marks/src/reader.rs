//! The reader of one style's sheets: made once from the sheet's geometry and blank pictures, then
//! given pictures.

use core::fmt;

use evenhand_rules::{
    ContestIndex, ContestReading, Micrometres, OptionIndex, OvalReading, Reading, WriteInReading,
};
use evenhand_sheet::{Ballot, Page, Payload, Point, Rect, Side};
use image::GrayImage;

use crate::alphabet::Alphabet;
use crate::code;
use crate::compare::{self, Moves, PRINT_LIMIT, STRAY_LIMIT};
use crate::corners::{self, CornerFault, Figures, Planes};
use crate::grid::{BlankGrid, PITCH};
use crate::levels::{Brightness, Levels, estimate};
use crate::mapping::{Mapping, Spot};
use crate::ovals::{self, Sight};
use crate::plane::{Plane, View};
use crate::refused::{ReaderError, Refused};
use crate::writing;

/// Dots in an inch, the same across and down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Dpi(pub u16);

/// The most pixels of a picture that is read: a 17 in page at 600 dpi is 52 million. Own choice.
pub const PIXELS_MAX: u64 = 64_000_000;
/// Pixels an inch below which letters of 10 pt can't be compared. Own choice; 200 is what is asked for.
const RESOLUTION_MIN: f64 = 140.0;
/// How much smaller the plane is on which figures and stray ink are looked for.
const COARSER: f64 = 2.0;
/// Pixels an inch of the plane that is compared.
const FINE: f64 = 100.0;

/// Reads the sheets of one style.
pub struct Reader {
    ballot: Ballot,
    pages: Vec<KnownPage>,
    alphabet: Alphabet,
}

/// What is known of one page.
struct KnownPage {
    expected: Payload,
    figures: Figures,
    grid: BlankGrid,
    /// For each oval, the ink inside it on the blank.
    ovals: Vec<f32>,
}

/// One side of a sheet as it was read.
#[derive(Clone)]
pub struct PageReading {
    /// Which sheet, from 1.
    pub sheet: u8,
    /// Which side.
    pub side: Side,
    /// Its ovals in paper order.
    pub ovals: Vec<OvalReading>,
    /// Its write-in lines in paper order.
    pub write_ins: Vec<WriteInSeen>,
    /// How near the page came to being refused.
    pub fit: Fit,
}

impl fmt::Debug for PageReading {
    /// Prints which page, and nothing of what stands on it.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "PageReading(sheet {}, {:?}, {:?})", self.sheet, self.side, self.fit)
    }
}

/// One write-in line as it was read, with its picture.
#[derive(Clone)]
pub struct WriteInSeen {
    /// What stands there.
    pub reading: WriteInReading,
    /// The line upright at 200 dpi, where something is written on it.
    pub picture: Option<GrayImage>,
}

impl fmt::Debug for WriteInSeen {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("WriteInSeen(..)")
    }
}

/// How far a page's print was from the blank's, each in thousandths of what is refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fit {
    /// Altered print.
    pub print: u16,
    /// Ink on bare paper.
    pub stray: u16,
}

/// All sheets of a ballot as they were read.
#[derive(Clone)]
pub struct BallotReading {
    /// What stands on the paper.
    pub reading: Reading,
    /// The picture of every write-in line on which something is written.
    pub write_in_pictures: Vec<(ContestIndex, OptionIndex, GrayImage)>,
}

impl fmt::Debug for BallotReading {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("BallotReading(..)")
    }
}

impl fmt::Debug for Reader {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Reader({} pages)", self.pages.len())
    }
}

/// A picture in which the sheet has been found.
struct Registered {
    levels: Levels,
    mapping: Mapping,
    coarse: Plane,
    fine: Plane,
    fine_factor: f64,
}

impl Registered {
    fn sight<'a>(&'a self, picture: View<'a>, moves: &'a Moves) -> Sight<'a> {
        let (levels, mapping) = (self.levels, &self.mapping);
        Sight { picture, levels, mapping, moves, table: levels.table() }
    }

    fn for_comparing(&self) -> compare::Found<'_> {
        compare::Found {
            fine: &self.fine,
            coarse: &self.coarse,
            mapping: self.mapping.shrunk(self.fine_factor),
            table: self.levels.table(),
        }
    }
}

impl Reader {
    /// Learns a style's pages from their geometry and from pictures of the blank sheet, one a page in
    /// the ballot's order, upright and exactly as large as the paper at `dpi`.
    ///
    /// # Errors
    /// [`ReaderError`] says which blank doesn't fit its page.
    pub fn new(
        ballot: &Ballot,
        blanks: &[GrayImage],
        dpi: Dpi,
        alphabet: Alphabet,
    ) -> Result<Self, ReaderError> {
        if ballot.pages.is_empty() || ballot.pages.len() != blanks.len() {
            let (pages, found) = (ballot.pages.len(), blanks.len());
            return Err(ReaderError::BlankCount { pages, blanks: found });
        }
        let mut pages = Vec::new();
        for (index, (page, blank)) in ballot.pages.iter().zip(blanks).enumerate() {
            pages.push(KnownPage::learn(ballot, page, blank, dpi, index)?);
        }
        let reader = Self { ballot: ballot.clone(), pages, alphabet };
        for (page, blank) in blanks.iter().enumerate() {
            let seen = reader.read_page(blank).map_err(|why| ReaderError::Blank { page, why })?;
            let clean = seen.write_ins.iter().all(|line| !line.reading.inked);
            if !clean {
                return Err(ReaderError::NotBlank { page });
            }
        }
        Ok(reader)
    }

    /// Reads one side.
    ///
    /// # Errors
    /// [`Refused`] says why nothing on it is taken as read.
    pub fn read_page(&self, picture: &GrayImage) -> Result<PageReading, Refused> {
        let first = self.pages.first().ok_or(Refused::CodeUnreadable)?;
        let found = register(picture, &first.figures)?;
        let view = View::of(picture);
        let payload = self.payload(view, &found)?;
        let index = self.page_of(payload)?;
        let (Some(known), Some(page)) = (self.pages.get(index), self.ballot.pages.get(index))
        else {
            return Err(Refused::CodeUnreadable);
        };
        let seen = compare::compare(&known.grid, &found.for_comparing());
        let differs = |at: (usize, usize), size: i32| Refused::PrintDiffers {
            sheet: page.sheet,
            side: page.side,
            area: area_at(at, size),
        };
        if seen.print.0 > PRINT_LIMIT {
            return Err(differs(seen.print.1, 4));
        }
        if seen.stray.0 > STRAY_LIMIT {
            return Err(differs(seen.stray.1, 16));
        }
        let sight = found.sight(view, &seen.moves);
        let mut ovals = Vec::with_capacity(page.ovals.len());
        for (oval, &blank) in page.ovals.iter().zip(&known.ovals) {
            if !ovals::has_outline(&sight, oval) {
                let (sheet, side) = (page.sheet, page.side);
                return Err(Refused::PrintDiffers { sheet, side, area: oval.area });
            }
            ovals.push(ovals::judge(oval, ovals::darkness(&sight, oval), blank));
        }
        let write_ins = page
            .write_ins
            .iter()
            .map(|line| {
                let (reading, picture) = writing::read(&sight, line, &self.alphabet);
                WriteInSeen { reading, picture }
            })
            .collect();
        let fit = Fit {
            print: thousandths(seen.print.0 / PRINT_LIMIT),
            stray: thousandths(seen.stray.0 / STRAY_LIMIT),
        };
        Ok(PageReading { sheet: page.sheet, side: page.side, ovals, write_ins, fit })
    }

    /// Reads all sides of a ballot, in any order and any side up.
    ///
    /// # Errors
    /// [`Refused`] of the first side that is refused, or [`Refused::SideTwice`] and
    /// [`Refused::SideMissing`] where the sides don't make one ballot.
    pub fn read(&self, pictures: &[GrayImage]) -> Result<BallotReading, Refused> {
        let mut sides = Vec::with_capacity(pictures.len());
        for picture in pictures {
            sides.push(self.read_page(picture)?);
        }
        self.assemble(sides)
    }

    /// Puts sides that were read one by one together.
    ///
    /// # Errors
    /// [`Refused::SideTwice`] or [`Refused::SideMissing`].
    pub fn assemble(&self, sides: Vec<PageReading>) -> Result<BallotReading, Refused> {
        let mut places: Vec<Option<PageReading>> = self.ballot.pages.iter().map(|_| None).collect();
        for seen in sides {
            let (sheet, side) = (seen.sheet, seen.side);
            let at = self.ballot.pages.iter().position(|p| p.sheet == sheet && p.side == side);
            let place = at.and_then(|at| places.get_mut(at)).ok_or(Refused::OtherStyle)?;
            if place.replace(seen).is_some() {
                return Err(Refused::SideTwice { sheet, side });
            }
        }
        let mut reading = Reading { contests: Vec::new(), write_ins: Vec::new() };
        let mut write_in_pictures = Vec::new();
        for (place, page) in places.into_iter().zip(&self.ballot.pages) {
            let (sheet, side) = (page.sheet, page.side);
            let seen = place.ok_or(Refused::SideMissing { sheet, side })?;
            for oval in seen.ovals {
                let contest = oval.oval.contest;
                match reading.contests.iter_mut().find(|known| known.contest == contest) {
                    Some(known) => known.ovals.push(oval),
                    None => reading.contests.push(ContestReading { contest, ovals: vec![oval] }),
                }
            }
            for line in seen.write_ins {
                if let Some(picture) = line.picture {
                    write_in_pictures.push((line.reading.contest, line.reading.option, picture));
                }
                reading.write_ins.push(line.reading);
            }
        }
        reading.contests.sort_by_key(|contest| contest.contest);
        Ok(BallotReading { reading, write_in_pictures })
    }

    /// What the code says, at any of the places where a page of this style has it.
    fn payload(&self, view: View<'_>, found: &Registered) -> Result<Payload, Refused> {
        let mut tried: Vec<(Point, Micrometres, u16)> = Vec::new();
        for page in &self.ballot.pages {
            let place = (page.code.origin, page.code.module, page.code.columns);
            if tried.contains(&place) {
                continue;
            }
            tried.push(place);
            if let Some(payload) = code::read(view, found.levels, &found.mapping, &page.code) {
                return Ok(payload);
            }
        }
        Err(Refused::CodeUnreadable)
    }

    /// Which page of this style the code names.
    fn page_of(&self, payload: Payload) -> Result<usize, Refused> {
        if let Some(index) = self.pages.iter().position(|page| page.expected == payload) {
            return Ok(index);
        }
        if self.pages.iter().all(|page| page.expected.election != payload.election) {
            return Err(Refused::OtherElection);
        }
        if self.pages.iter().all(|page| page.expected.style != payload.style) {
            return Err(Refused::OtherStyle);
        }
        Err(Refused::NoSuchSide { sheet: payload.sheet, side: payload.side })
    }
}

impl KnownPage {
    fn learn(
        ballot: &Ballot,
        page: &Page,
        blank: &GrayImage,
        dpi: Dpi,
        index: usize,
    ) -> Result<Self, ReaderError> {
        let scale = f64::from(dpi.0) / f64::from(Micrometres::INCH.0);
        let near = |pixels: u32, length: Micrometres| {
            (f64::from(pixels) - f64::from(length.0) * scale).abs() <= 1.0
        };
        if dpi.0 == 0 || !near(blank.width(), ballot.width) || !near(blank.height(), ballot.length)
        {
            return Err(ReaderError::BlankSize { page: index });
        }
        let expected = code::expected(&page.code).ok_or(ReaderError::Code { page: index })?;
        let bad = |why| ReaderError::Blank { page: index, why };
        let (_, fine, fine_factor) = planes(blank);
        let levels = usual(&fine).map_err(bad)?;
        let figures = learn_figures(ballot, page, &fine, levels, scale / fine_factor)
            .ok_or(ReaderError::Figures { page: index })?;
        let found = register(blank, &figures).map_err(bad)?;
        let comparing = found.for_comparing();
        let grid =
            BlankGrid::new(ballot, page, comparing.fine, &comparing.mapping, &comparing.table);
        let seen = compare::compare(&grid, &comparing);
        let sight = found.sight(View::of(blank), &seen.moves);
        let ovals: Vec<f32> = page.ovals.iter().map(|oval| ovals::darkness(&sight, oval)).collect();
        if ovals.iter().any(|&ink| ink > OVAL_BLANK_MAX) {
            return Err(ReaderError::NotBlank { page: index });
        }
        Ok(Self { expected, figures, grid, ovals })
    }
}

/// The most ink, 0 to 1, that a blank's own oval may have inside: a rank printed in it.
const OVAL_BLANK_MAX: f32 = 0.4;

/// What a page's corner figures look like on its blank.
fn learn_figures(
    ballot: &Ballot,
    page: &Page,
    fine: &Plane,
    levels: Levels,
    scale: f64,
) -> Option<Figures> {
    let first = page.corners.iter().find(|corner| corner.is_first)?;
    let other = page.corners.iter().find(|corner| !corner.is_first)?;
    let diameter = f64::from(first.diameter.0);
    let looks = |centre: Point| {
        let at = Spot::of(centre);
        let at = Spot { x: at.x * scale, y: at.y * scale };
        corners::looks(fine, levels, at, diameter * scale)
    };
    // Clockwise on the page from the one that differs. The geometry gives them row by row.
    let [top_left, top_right, bottom_left, bottom_right] = &page.corners;
    let round = [top_left, top_right, bottom_right, bottom_left];
    let start = round.iter().position(|corner| corner.is_first)?;
    let mut anchors = Vec::new();
    for corner in round.iter().cycle().skip(start).take(4) {
        let nominal = Spot::of(corner.centre);
        let near = Spot { x: nominal.x * scale, y: nominal.y * scale };
        let reach = diameter * scale * 0.62;
        let balance = corners::balance(fine, levels, near, reach)?;
        let at = Spot { x: balance.x / scale, y: balance.y / scale };
        if at.distance(nominal) > diameter / 4.0 {
            return None;
        }
        anchors.push(at);
    }
    Some(Figures {
        diameter,
        first: looks(first.centre)?,
        other: looks(other.centre)?,
        anchors: anchors.try_into().ok()?,
        page_width: f64::from(ballot.width.0),
    })
}

/// Finds the sheet in a picture.
fn register(picture: &GrayImage, figures: &Figures) -> Result<Registered, Refused> {
    let (width, height) = picture.dimensions();
    if u64::from(width).saturating_mul(u64::from(height)) > PIXELS_MAX {
        return Err(Refused::TooLarge { width, height });
    }
    let inches = figures.page_width / f64::from(Micrometres::INCH.0);
    if f64::from(width.min(height)) < RESOLUTION_MIN * inches {
        return Err(Refused::TooSmall { width, height });
    }
    let (mut coarse, mut fine, mut fine_factor) = planes(picture);
    let levels = usual(&coarse)?;
    let coarse_factor = fine_factor * COARSER;
    let planes = Planes { coarse: &coarse, coarse_factor, fine: &fine, fine_factor };
    let mapping = corners::locate(&planes, levels, figures).map_err(|fault| match fault {
        CornerFault::Missing { found } => Refused::CornersMissing { found },
        CornerFault::OtherLength => Refused::OtherLength,
        CornerFault::Mirrored => Refused::Mirrored,
        CornerFault::Turned(degrees) => Refused::Turned { degrees: whole(degrees) },
    })?;
    let left = mapping.at(0.0, 0.0);
    let right = mapping.at(figures.page_width, 0.0);
    let per_inch = left.distance(right) / inches;
    if per_inch < RESOLUTION_MIN {
        return Err(Refused::TooSmall { width, height });
    }
    // A picture wider than the sheet (a scanner's bed) was made too small for comparing: once more.
    let wanted = (per_inch / FINE).round().max(1.0);
    if (wanted - fine_factor).abs() > 0.5 {
        fine_factor = wanted;
        fine = Plane::shrunk(picture, factor(wanted));
        coarse = fine.shrunk_again(factor(COARSER));
    }
    let levels = levels.with_black_of(&fine, &mapping.shrunk(fine_factor), figures);
    if levels.white - levels.black < crate::levels::CONTRAST_MIN {
        return Err(Refused::Faint);
    }
    Ok(Registered { levels, mapping, coarse, fine, fine_factor })
}

/// The coarse plane, the fine one, and by how much that one is smaller than the picture.
fn planes(picture: &GrayImage) -> (Plane, Plane, f64) {
    // Every sheet is 8.5 in wide; the narrower way of the picture is about that.
    let per_inch = f64::from(picture.width().min(picture.height())) / 8.5;
    let fine_factor = (per_inch / FINE).round().clamp(1.0, 32.0);
    let fine = Plane::shrunk(picture, factor(fine_factor));
    let coarse = fine.shrunk_again(factor(COARSER));
    (coarse, fine, fine_factor)
}

fn usual(plane: &Plane) -> Result<Levels, Refused> {
    match estimate(plane) {
        Brightness::Usual(levels) => Ok(levels),
        Brightness::MostlyDark => Err(Refused::MostlyDark),
        Brightness::Faint => Err(Refused::Faint),
    }
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "between 1 and 32; casts from float are held to the range"
)]
fn factor(value: f64) -> usize {
    value as usize
}

#[expect(clippy::cast_possible_truncation, reason = "an angle of at most 180 degrees")]
fn whole(degrees: f64) -> i16 {
    degrees.round() as i16
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "not negative, and casts from float are held to the range"
)]
fn thousandths(share: f32) -> u16 {
    (share * 1000.0).round() as u16
}

/// The square of `size` grid points at a grid point, with its neighbours.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    reason = "grid points of a page are below 2^12, micrometres below 2^20"
)]
fn area_at((column, row): (usize, usize), size: i32) -> Rect {
    let pitch = Micrometres(PITCH as i32);
    let side = pitch.times(size);
    let at = |points: usize| Micrometres((points as f64 * PITCH) as i32).minus(side);
    Rect { x: at(column), y: at(row), width: side.times(3), height: side.times(3) }
}
