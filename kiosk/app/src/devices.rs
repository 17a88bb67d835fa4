//! The devices of a visit, each on a thread of its own. All of them report into one channel, which
//! wakes the window.

pub mod clock;
pub mod paper;
pub mod scanner;
pub mod service;
pub mod station;
pub mod voice;

use std::fmt;
use std::hash::{Hash, Hasher};
use std::sync::{Arc, Mutex};

use evenhand_input::pads::PadEvent;
use evenhand_marks::BallotReading;
use evenhand_rules::Millis;
use evenhand_speech::VoiceEvent;
use evenhand_visit::{PrintFault, ReadFault, WorkerSays};
use iced::Subscription;
use iced::futures::StreamExt;
use iced::futures::channel::mpsc;
use iced::futures::stream::{self, BoxStream};

use self::paper::PaperError;

/// What a device reports.
#[derive(Debug)]
pub enum Report {
    /// The voice.
    Voice(VoiceEvent),
    /// A pad or a switch.
    Pad(PadEvent),
    /// A moment that was waited for has come.
    Woken(clock::Wake, Millis),
    /// The printer is done, or isn't.
    Printed(Result<(), PrintFault>),
    /// The paper as it was read.
    Read(Result<Box<BallotReading>, ReadFault>),
    /// The window itself: this view has been drawn. Only where a trace is kept.
    Drawn(u64),
    /// The station answers to a worker who wants in.
    Worker(WorkerSays),
    /// The station's process has ended.
    StationGone,
    /// The reader of sheets couldn't be made ready: there can be no visit.
    PaperBroken(PaperError),
}

/// Where devices put their reports.
pub type Reports = mpsc::UnboundedSender<Report>;

/// Where a window takes reports out, once.
pub struct Inbox<T>(Arc<Mutex<Option<mpsc::UnboundedReceiver<T>>>>);

impl<T> Clone for Inbox<T> {
    fn clone(&self) -> Self {
        Self(Arc::clone(&self.0))
    }
}

impl<T> fmt::Debug for Inbox<T> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("Inbox")
    }
}

impl<T> Hash for Inbox<T> {
    /// There is one inbox of a kind in a window, so all are the same subscription.
    fn hash<H: Hasher>(&self, state: &mut H) {
        "inbox".hash(state);
    }
}

/// Both ends of a channel.
pub fn channel<T>() -> (mpsc::UnboundedSender<T>, Inbox<T>) {
    let (reports, received) = mpsc::unbounded();
    (reports, Inbox(Arc::new(Mutex::new(Some(received)))))
}

impl<T: Send + 'static> Inbox<T> {
    /// The reports as they come.
    pub fn subscription(&self) -> Subscription<T> {
        Subscription::run_with(self.clone(), Self::stream)
    }

    /// The reports as they come: all of them the first time, none after that.
    pub fn stream(&self) -> BoxStream<'static, T> {
        // A lock is poisoned by a panic only, and nothing here panics while it is held.
        let received = self.0.lock().map(|mut held| held.take()).unwrap_or_default();
        match received {
            Some(received) => received.boxed(),
            None => stream::empty().boxed(),
        }
    }
}
