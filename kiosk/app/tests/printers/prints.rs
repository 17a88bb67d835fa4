//! Printing through CUPS: what the printer gets, what its troubles are called, and what stays.

use std::thread;
use std::time::{Duration, Instant};

use evenhand_app::devices::service::{NotPrinted, ServicePrinter, fault_of, service_printers};
use evenhand_printers::{Queue, Trouble};
use evenhand_visit::PrintFault;

use crate::documents::{ballot, prepared};
use crate::service::PrintService;

#[test]
fn the_printer_gets_every_byte_and_the_service_keeps_none() {
    let Some(service) = PrintService::start() else { return };
    let prepared = prepared(None);
    let document = ballot(&prepared);
    let start = Instant::now();
    service.printer().print(&document).unwrap();
    eprintln!("{} bytes in {} ms", document.len(), start.elapsed().as_millis());
    assert_eq!(service.sheets(), std::slice::from_ref(&document));
    let options = std::fs::read_to_string(service.out("options")).unwrap();
    let sides = if prepared.ballot.pages.len() > 1 {
        "sides=two-sided-long-edge"
    } else {
        "sides=one-sided"
    };
    // The sheet's length in inches by hand: 17 in of the demo's longest style, 11 of the shortest.
    let media = match prepared.ballot.length.0 {
        279_400 => "media=na_letter_8.5x11in",
        355_600 => "media=na_legal_8.5x14in",
        431_800 => "media=custom_ballot_8.5x17in",
        other => panic!("{other}"),
    };
    for wanted in ["sheets|1|", media, "print-scaling=none", sides] {
        assert!(options.contains(wanted), "{wanted}: {options}");
    }
    assert_eq!(service.spooled(), Vec::<std::path::PathBuf>::new());
    assert!(!service.holds(&document[1_000..1_100]));
}

#[test]
fn each_trouble_is_told_as_what_it_is_and_the_next_document_prints() {
    let Some(service) = PrintService::start() else { return };
    let (printer, document) = (service.printer(), ballot(&prepared(None)));
    for (reason, trouble, fault) in [
        ("media-empty-error", Trouble::NoPaper, PrintFault::OutOfPaper),
        ("media-jam-error", Trouble::Jam, PrintFault::Jam),
        ("offline-report", Trouble::Offline, PrintFault::Offline),
        ("cover-open", Trouble::CoverOpen, PrintFault::Offline),
    ] {
        service.set("trouble", reason);
        let start = Instant::now();
        let error = printer.print(&document).unwrap_err();
        assert!(matches!(error, NotPrinted::Trouble(found) if found == trouble), "{error}");
        assert_eq!(fault_of(&error), fault);
        eprintln!("{reason}: told after {} ms", start.elapsed().as_millis());
        assert_eq!(service.spooled(), Vec::<std::path::PathBuf>::new(), "{reason}");
        service.unset("trouble");
        // Longer than a new trouble takes to count: what the printer said before is over.
        service.set("slow", "3");
        printer.print(&document).unwrap();
        service.unset("slow");
    }
    // What failed never came out.
    assert_eq!(service.sheets(), vec![document; 4]);
}

#[test]
fn a_trouble_that_passes_is_none() {
    let Some(service) = PrintService::start() else { return };
    let document = ballot(&prepared(None));
    service.set("trouble", "media-empty-error");
    let trouble = service.out("trouble");
    let helper = thread::spawn(move || {
        thread::sleep(Duration::from_millis(900));
        std::fs::remove_file(trouble).unwrap();
    });
    service.printer().print(&document).unwrap();
    helper.join().unwrap();
    assert_eq!(service.sheets(), [document]);
}

#[test]
fn what_only_warns_does_not_stop_a_sheet() {
    let Some(service) = PrintService::start() else { return };
    let document = ballot(&prepared(None));
    service.set("trouble", "media-low-warning");
    let trouble = service.out("trouble");
    let helper = thread::spawn(move || {
        thread::sleep(Duration::from_secs(4));
        std::fs::remove_file(trouble).unwrap();
    });
    service.printer().print(&document).unwrap();
    helper.join().unwrap();
    assert_eq!(service.sheets(), [document]);
}

#[test]
fn a_printer_that_breaks_is_stopped_or_missing_says_so() {
    let Some(service) = PrintService::start() else { return };
    let document = ballot(&prepared(None));
    service.set("breaks", "");
    let error = service.printer().print(&document).unwrap_err();
    assert!(matches!(error, NotPrinted::Trouble(Trouble::Stopped)), "{error}");
    service.unset("breaks");
    let of = |name: &str| {
        ServicePrinter::new(service.socket(), name.parse::<Queue>().unwrap()).print(&document)
    };
    let error = of("asleep").unwrap_err();
    assert!(matches!(error, NotPrinted::Trouble(Trouble::Stopped)), "{error}");
    let error = of("nowhere").unwrap_err();
    assert!(matches!(error, NotPrinted::Service(_)), "{error}");
    assert_eq!(fault_of(&error), PrintFault::Offline);
    let error = service.printer().print(b"no document").unwrap_err();
    assert_eq!(fault_of(&error), PrintFault::NotMade);
    assert!(service.sheets().is_empty());
}

#[test]
fn what_a_process_left_behind_does_not_come_out() {
    let Some(service) = PrintService::start() else { return };
    let document = ballot(&prepared(None));
    service.set("trouble", "media-empty-warning");
    // A process that prints and dies: its document waits in the service until the printer goes on.
    let left = evenhand_printers::Paper { width_mil: 8_500, length_mil: 11_000, sides: 1 };
    let stream = std::os::unix::net::UnixStream::connect(service.socket()).unwrap();
    let queue: Queue = "ballots".parse().unwrap();
    evenhand_printers::print(stream, &queue, b"left behind", left).unwrap();
    service.wait("the document", || !service.spooled().is_empty());
    let trouble = service.out("trouble");
    let helper = thread::spawn(move || {
        thread::sleep(Duration::from_secs(1));
        std::fs::remove_file(trouble).unwrap();
    });
    service.printer().print(&document).unwrap();
    helper.join().unwrap();
    assert_eq!(service.sheets(), [document]);
}

#[test]
fn the_service_tells_its_printers() {
    let Some(service) = PrintService::start() else { return };
    let found = service_printers(&service.socket()).unwrap();
    let told: Vec<(String, String)> =
        found.into_iter().map(|one| (one.queue.to_string(), one.about)).collect();
    let expected = [("asleep", "Stopped printer"), ("ballots", "Ballot printer")];
    assert_eq!(told, expected.map(|(name, about)| (name.to_owned(), about.to_owned())));
}
