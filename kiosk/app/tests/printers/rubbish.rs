//! A socket on which something else than a print service listens: each answer is refused as what it
//! is, and none takes longer than the limit.

use std::fs;
use std::io::{Read as _, Write as _};
use std::os::unix::net::{UnixListener, UnixStream};
use std::path::PathBuf;
use std::thread;
use std::time::{Duration, Instant};

use evenhand_app::devices::service::{ServicePrinter, fault_of, service_printers};
use evenhand_printers::ServiceError;
use evenhand_visit::PrintFault;

use crate::documents::{ballot, prepared};
use crate::service::folder;

/// A socket in a folder of its own, which goes with it.
struct Socket(PathBuf);

impl Drop for Socket {
    fn drop(&mut self) {
        drop(fs::remove_dir_all(self.0.parent().unwrap()));
    }
}

/// Listens and treats each caller so.
fn listener(treat: impl Fn(UnixStream) + Send + Sync + 'static) -> Socket {
    let socket = folder("rubbish").join("socket");
    let listening = UnixListener::bind(&socket).unwrap();
    let treat = std::sync::Arc::new(treat);
    thread::spawn(move || {
        for caller in listening.incoming() {
            let treat = std::sync::Arc::clone(&treat);
            let caller = caller.unwrap();
            thread::spawn(move || treat(caller));
        }
    });
    Socket(socket)
}

/// Reads what the caller says, and answers so.
fn says(answer: Vec<u8>) -> Socket {
    listener(move |mut caller| {
        // All that is said, so that the answer isn't lost to a caller who still speaks.
        caller.set_read_timeout(Some(Duration::from_millis(50))).unwrap();
        let mut request = vec![0; 65_536];
        while caller.read(&mut request).is_ok_and(|count| count > 0) {}
        drop(caller.write_all(&answer));
    })
}

fn http(head: &str, body: &[u8]) -> Vec<u8> {
    [head.as_bytes(), b"\r\n\r\n", body].concat()
}

#[test]
fn rubbish_is_refused_as_what_it_is() {
    let ok = "HTTP/1.1 200 OK";
    // An IPP answer without attributes (RFC 8010, 3.1): version 2.0, successful-ok, request 1, end.
    let empty = [2, 0, 0, 0, 0, 0, 0, 1, 3];
    let not_found = [2, 0, 4, 6, 0, 0, 0, 1, 3];
    let chunked = format!("{ok}\r\nTransfer-Encoding: chunked");
    let is = |answer: Vec<u8>| service_printers(&says(answer).0).map(|found| found.len());
    assert!(matches!(is(Vec::new()), Err(ServiceError::Silent(_))));
    assert!(matches!(is(b"hello\r\n\r\n".to_vec()), Err(ServiceError::NotHttp(_))));
    assert!(matches!(is(vec![0; 5_000]), Err(ServiceError::NotHttp(_))));
    let forbidden = http("HTTP/1.1 403 Forbidden", b"");
    assert!(matches!(is(forbidden), Err(ServiceError::Refused(403))));
    assert!(matches!(is(http(ok, b"<html>")), Err(ServiceError::NotIpp(_))));
    assert!(matches!(is(http(ok, &empty[..5])), Err(ServiceError::NotIpp(_))));
    let long = format!("{ok}\r\nContent-Length: 9999999999");
    assert!(matches!(is(http(&long, b"")), Err(ServiceError::TooLong)));
    let negative = format!("{ok}\r\nContent-Length: -1");
    assert!(matches!(is(http(&negative, b"")), Err(ServiceError::NotHttp(_))));
    let short = format!("{ok}\r\nContent-Length: 50");
    assert!(matches!(is(http(&short, &empty)), Err(ServiceError::Silent(_))));
    assert!(matches!(is(http(ok, &vec![1; 3 << 20])), Err(ServiceError::TooLong)));
    let endless = [ok.as_bytes(), b"\r\nX: ", &vec![b'x'; 3 << 20]].concat();
    assert!(matches!(is(endless), Err(ServiceError::TooLong)));
    let wide = http(&chunked, b"fffffff\r\n");
    assert!(matches!(is(wide), Err(ServiceError::TooLong)));
    assert!(matches!(is(http(&chunked, b"zz\r\n")), Err(ServiceError::NotHttp(_))));
    assert!(matches!(is(http(&chunked, b"2\r\nabcd")), Err(ServiceError::NotHttp(_))));
    // And what is well formed is taken.
    assert_eq!(is(http(ok, &empty)).unwrap(), 0);
    assert_eq!(is(http(ok, &not_found)).unwrap(), 0);
    let pieces = [b"4\r\n", &empty[..4], b"\r\n5\r\n", &empty[4..], b"\r\n0\r\n\r\n"].concat();
    assert_eq!(is(http(&chunked, &pieces)).unwrap(), 0);
    let after = [b"HTTP/1.1 100 Continue\r\n\r\n".to_vec(), http(ok, &empty)].concat();
    assert_eq!(is(after).unwrap(), 0);
}

#[test]
fn who_hangs_or_dribbles_is_left() {
    let hangs = listener(|caller| {
        thread::sleep(Duration::from_mins(1));
        drop(caller);
    });
    // A byte at a time, each well before a limit on one read would be over.
    let dribbles = listener(|mut caller| {
        while caller.write_all(b" ").is_ok() {
            thread::sleep(Duration::from_millis(100));
        }
    });
    let document = ballot(&prepared(None));
    for socket in [hangs, dribbles] {
        let start = Instant::now();
        let printer = ServicePrinter::new(socket.0.clone(), "ballots".parse().unwrap());
        let error = printer.print(&document).unwrap_err();
        assert_eq!(fault_of(&error), PrintFault::Offline, "{error}");
        assert!(start.elapsed() < Duration::from_secs(15), "{:?}", start.elapsed());
    }
}

#[test]
fn nobody_listening_is_offline() {
    let nowhere = PathBuf::from("/nowhere/print-service");
    let printer = ServicePrinter::new(nowhere, "ballots".parse().unwrap());
    let error = printer.print(&ballot(&prepared(None))).unwrap_err();
    assert_eq!(fault_of(&error), PrintFault::Offline);
    assert!(error.to_string().contains("CUPS runs"), "{error}");
}
