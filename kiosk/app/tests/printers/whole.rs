//! A whole ballot: marked, printed by CUPS, drawn by poppler as the paper that came out, scanned by
//! SANE's program, and read back.

use std::sync::Arc;
use std::time::Instant;

use evenhand_app::devices::paper::{PaperDesk, PaperDevices};
use evenhand_app::devices::{Report, channel};
use evenhand_app::prepared::Prepared;
use evenhand_app::self_test::{Outcome, paper::paper};
use evenhand_scan::ScannerChoice;
use evenhand_visit::{PrintFault, ReadFault};
use iced::futures::StreamExt as _;
use iced::futures::executor::block_on;

use crate::documents::{ballot, prepared, selections};
use crate::scans::script;
use crate::service::{PrintService, need};

/// The printer, and a scanner into which somebody lays the next side of what it printed.
fn devices(service: &PrintService) -> Option<PaperDevices> {
    let scanimage = need("scanimage", "sane-utils")?;
    need("pdftoppm", "poppler-utils")?;
    service.set("rasterise", "");
    let out = service.out("");
    let program = script(&format!(
        "turn=$(( $(cat {out}turn 2>/dev/null || echo 0) + 1 ))\n\
         echo $turn >{out}turn\n\
         side=$(ls {out}side-*.pgm | sed -n \"${{turn}}p\")\n\
         exec {scanimage} \"$@\" --filename=\"$side\"",
        out = out.display(),
        scanimage = scanimage.display(),
    ));
    let scanner = ScannerChoice::new("pnm:0".to_owned(), Vec::new(), false, false).unwrap();
    Some(PaperDevices::Real { printer: service.printer(), scanner, program })
}

fn desk(prepared: &Prepared, devices: &PaperDevices) -> (PaperDesk, impl FnMut() -> Report) {
    let (reports, inbox) = channel();
    let (style, ballot) = (Arc::clone(&prepared.style), Arc::clone(&prepared.ballot));
    let desk = PaperDesk::start(style, ballot, devices.open(), reports).unwrap();
    let mut received = inbox.stream();
    (desk, move || block_on(received.next()).unwrap())
}

#[test]
fn a_whole_ballot_is_printed_scanned_and_read_back() {
    let Some(service) = PrintService::start() else { return };
    let Some(devices) = devices(&service) else { return };
    let prepared = prepared(None);
    let chosen = selections(&prepared);
    let (desk, mut report) = desk(&prepared, &devices);
    // A printer without paper prints nothing, and nothing is read.
    service.set("trouble", "media-empty-error");
    assert!(desk.print(chosen.clone()) && desk.read());
    assert!(matches!(report(), Report::Printed(Err(PrintFault::OutOfPaper))));
    assert!(matches!(report(), Report::Read(Err(ReadFault::NoSheet))));
    service.unset("trouble");
    let start = Instant::now();
    assert!(desk.print(chosen.clone()));
    assert!(matches!(report(), Report::Printed(Ok(()))));
    let printed = start.elapsed();
    assert!(desk.read());
    let Report::Read(Ok(read)) = report() else { panic!("not read") };
    eprintln!(
        "{} sides printed in {} ms, scanned and read in {}",
        prepared.ballot.pages.len(),
        printed.as_millis(),
        start.elapsed().saturating_sub(printed).as_millis()
    );
    assert!(read.reading.differences(&prepared.style, &chosen).is_empty());
    assert_eq!(service.sheets(), [ballot(&prepared)]);
    assert_eq!(service.spooled(), Vec::<std::path::PathBuf>::new());
}

#[test]
fn the_self_test_runs_on_real_devices_unchanged() {
    let Some(service) = PrintService::start() else { return };
    let Some(devices) = devices(&service) else { return };
    let prepared = prepared(None);
    let check = paper(devices.open().as_mut(), &prepared.ballot, &prepared.style);
    let Outcome::Passed(figures) = check.outcome else { panic!("{check:?}") };
    assert!(figures.marked > 0 && figures.marked == figures.empty, "{figures:?}");
}
