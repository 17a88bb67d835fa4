//! What comes through a scanner's door: pictures and documents that are taken, and bad ones, each with
//! its refusal.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::format_push_string,
    clippy::format_collect,
    reason = "helpers of tests: a broken expectation stops the test, and speed is nothing here"
)]

use std::io::Cursor;

use evenhand_scan::{
    BYTES_MAX, Dpi, GivenPicture, GivenPictures, PAGES_MAX, PrintedBytes, ScanError, Scanner,
    SheetPicture,
};
use image::{DynamicImage, GrayImage, ImageFormat, Luma};
use proptest::prelude::*;

fn picture() -> GrayImage {
    GrayImage::from_fn(40, 30, |x, y| Luma([u8::try_from(x * 5 + y).unwrap()]))
}

fn encoded(picture: &DynamicImage, format: ImageFormat) -> Vec<u8> {
    let mut bytes = Cursor::new(Vec::new());
    picture.write_to(&mut bytes, format).unwrap();
    bytes.into_inner()
}

fn png() -> Vec<u8> {
    encoded(&DynamicImage::ImageLuma8(picture()), ImageFormat::Png)
}

fn scan(bytes: Vec<u8>) -> Result<Vec<SheetPicture>, ScanError> {
    GivenPictures::new(vec![GivenPicture { bytes, dpi: Dpi(200) }]).scan()
}

fn refusal(bytes: Vec<u8>) -> ScanError {
    scan(bytes).expect_err("it was taken")
}

fn broken(bytes: Vec<u8>) {
    let why = refusal(bytes);
    assert!(matches!(why, ScanError::BrokenPicture { side: 1, .. }), "{why}");
}

/// A PDF of pages 1 × 2 in with a black box 0.5 in wide and 1 in high in the lower left corner.
fn document(pages: usize) -> Vec<u8> {
    let mut bodies = vec!["<</Type/Catalog/Pages 2 0 R>>".to_owned()];
    let kids: String = (0..pages).map(|page| format!("{} 0 R ", 4 + page)).collect();
    bodies.push(format!("<</Type/Pages/Count {pages}/Kids[{kids}]>>"));
    bodies.push("<</Length 14>>stream\n0 0 36 72 re f\nendstream".to_owned());
    for _ in 0..pages {
        let page = "<</Type/Page/Parent 2 0 R/MediaBox[0 0 72 144]/Contents 3 0 R>>";
        bodies.push(page.to_owned());
    }
    let mut text = "%PDF-1.4\n".to_owned();
    let mut places = Vec::new();
    for (index, body) in bodies.iter().enumerate() {
        places.push(text.len());
        text += &format!("{} 0 obj\n{body}\nendobj\n", index + 1);
    }
    let start = text.len();
    text += &format!("xref\n0 {}\n0000000000 65535 f \n", places.len() + 1);
    for place in &places {
        text += &format!("{place:010} 00000 n \n");
    }
    text +=
        &format!("trailer<</Size {}/Root 1 0 R>>\nstartxref\n{start}\n%%EOF\n", places.len() + 1);
    text.into_bytes()
}

#[test]
fn grey_colour_and_deep_pictures_come_out_grey() {
    let grey = DynamicImage::ImageLuma8(picture());
    for format in [ImageFormat::Png, ImageFormat::Pnm] {
        let sides = scan(encoded(&grey, format)).unwrap();
        assert_eq!(sides[0].picture, picture());
        assert_eq!(sides[0].dpi, Dpi(200));
    }
    for other in [grey.to_rgb8().into(), DynamicImage::from(grey.to_luma16())] {
        let sides = scan(encoded(&other, ImageFormat::Png)).unwrap();
        assert_eq!(sides[0].picture, picture());
    }
}

#[test]
fn sides_come_in_the_order_given() {
    let dark = encoded(&DynamicImage::new_luma8(3, 4), ImageFormat::Png);
    let given = |bytes| GivenPicture { bytes, dpi: Dpi(300) };
    let sides = GivenPictures::new(vec![given(png()), given(dark)]).scan().unwrap();
    let sizes: Vec<_> = sides.iter().map(|side| side.picture.dimensions()).collect();
    assert_eq!(sizes, [(40, 30), (3, 4)]);
}

#[test]
fn a_printed_document_is_drawn_where_it_says() {
    for dpi in [100, 200, 300] {
        let sides = PrintedBytes::new(document(2), Dpi(dpi)).scan().unwrap();
        assert_eq!(sides.len(), 2);
        let picture = &sides[1].picture;
        let inch = u32::from(dpi);
        assert_eq!(picture.dimensions(), (inch, 2 * inch));
        for (x, y, pixel) in picture.enumerate_pixels() {
            let expected = if x < inch / 2 && y >= inch { 0 } else { 255 };
            assert_eq!(pixel.0[0], expected, "{x} {y} at {dpi} dpi");
        }
    }
}

#[test]
fn nothing_to_read() {
    assert_eq!(GivenPictures::new(vec![]).scan().expect_err("taken"), ScanError::NoSheets);
    let none = PrintedBytes::new(vec![], Dpi(200)).scan();
    assert_eq!(none.expect_err("taken"), ScanError::NoSheets);
}

#[test]
fn too_many_sides() {
    let found = PAGES_MAX + 1;
    let given = vec![GivenPicture { bytes: png(), dpi: Dpi(200) }; found];
    let many = GivenPictures::new(given).scan().expect_err("taken");
    assert_eq!(many, ScanError::TooManySides { found });
    let many = PrintedBytes::new(document(found), Dpi(200)).scan().expect_err("taken");
    assert_eq!(many, ScanError::TooManySides { found });
}

#[test]
fn too_many_bytes() {
    let found = BYTES_MAX + 1;
    assert_eq!(refusal(vec![0; found]), ScanError::TooManyBytes { side: 1, found });
    let many = PrintedBytes::new(vec![0; found], Dpi(200)).scan().expect_err("taken");
    assert_eq!(many, ScanError::TooManyBytes { side: 1, found });
}

#[test]
fn a_resolution_that_is_not_read() {
    for found in [Dpi(0), Dpi(99), Dpi(601), Dpi(u16::MAX)] {
        let given = GivenPicture { bytes: png(), dpi: found };
        let why = GivenPictures::new(vec![given]).scan().expect_err("taken");
        assert_eq!(why, ScanError::Resolution { found });
        let why = PrintedBytes::new(document(1), found).scan().expect_err("taken");
        assert_eq!(why, ScanError::Resolution { found });
    }
}

#[test]
fn not_a_picture() {
    for bytes in [&b""[..], b"hello", b"%PDF-1.4", b"\xff\xd8\xff\xe0 a JPEG", b"GIF89a"] {
        assert_eq!(refusal(bytes.to_vec()), ScanError::NotAPicture { side: 1 });
    }
}

#[test]
fn a_png_cut_short_anywhere() {
    let whole = png();
    // Up to the end of the pixels; what follows them is no longer needed.
    for length in 8..whole.len() - 20 {
        broken(whole[..length].to_vec());
    }
}

#[test]
fn a_png_with_a_wrong_bit() {
    let mut bytes = png();
    let middle = bytes.len() / 2;
    bytes[middle] ^= 0x10;
    broken(bytes);
}

#[test]
fn a_png_that_claims_to_be_huge() {
    let mut bytes = png();
    // Width and height of the header, and its CRC-32 (ISO/IEC 15948, 5.3 and 11.2.2).
    bytes[16..20].copy_from_slice(&60_000_u32.to_be_bytes());
    bytes[20..24].copy_from_slice(&60_000_u32.to_be_bytes());
    let crc = crc32(&bytes[12..29]).to_be_bytes();
    bytes[29..33].copy_from_slice(&crc);
    let huge = ScanError::TooManyPixels { side: 1, width: 60_000, height: 60_000 };
    assert_eq!(refusal(bytes), huge);
}

fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            (crc >> 1) ^ if crc & 1 == 1 { 0xedb8_8320 } else { 0 }
        })
    })
}

#[test]
fn grey_maps_that_are_broken() {
    broken(b"P5\n40 30\n255\nshort".to_vec());
    broken(b"P5\n40".to_vec());
    broken(b"P5\nx y\n255\n".to_vec());
    broken(b"P5\n0 30\n255\n".to_vec());
    broken(b"P5\n40 30\n0\n".to_vec());
}

#[test]
fn a_grey_map_that_claims_to_be_huge() {
    let huge = ScanError::TooManyPixels { side: 1, width: 90_000, height: 90_000 };
    assert_eq!(refusal(b"P5\n90000 90000\n255\n".to_vec()), huge);
}

#[test]
fn documents_that_are_none() {
    for bytes in [&b"hello"[..], b"%PDF-1.4", b"%PDF-1.4\ntrailer<<>>", &png()] {
        let why = PrintedBytes::new(bytes.to_vec(), Dpi(200)).scan().expect_err("taken");
        assert!(matches!(why, ScanError::NotADocument | ScanError::NoSheets), "{why}");
    }
}

#[test]
fn a_page_too_large() {
    let text = String::from_utf8(document(1)).unwrap().replace("72 144", "9999 9");
    let why = PrintedBytes::new(text.into_bytes(), Dpi(600)).scan().expect_err("taken");
    assert_eq!(why, ScanError::TooManyPixels { side: 1, width: 83_325, height: 75 });
}

#[test]
fn nothing_that_is_printed_for_debugging_shows_a_pixel() {
    let side = scan(png()).unwrap().remove(0);
    assert_eq!(format!("{side:?}"), "SheetPicture(40 x 30 at 200 dpi)");
    let given = GivenPicture { bytes: png(), dpi: Dpi(200) };
    assert_eq!(format!("{given:?}"), "GivenPicture(..)");
    assert_eq!(format!("{:?}", PrintedBytes::new(document(1), Dpi(200))), "PrintedBytes(..)");
}

proptest! {
    #[test]
    fn any_bytes_are_refused_or_taken(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = scan(bytes.clone());
        let mut named = b"P5\n4 4\n255\n".to_vec();
        named.extend(&bytes);
        let _ = scan(named);
        let _ = PrintedBytes::new(bytes, Dpi(100)).scan();
    }

    #[test]
    fn a_document_with_changed_bytes_is_refused_or_drawn(
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..6),
    ) {
        let mut bytes = document(1);
        for (at, value) in changes {
            let at = at.index(bytes.len());
            bytes[at] = value;
        }
        let _ = PrintedBytes::new(bytes, Dpi(100)).scan();
    }
}
