//! The way from the visit's process to the station's: one word of a closed list a line.

use std::fmt;
use std::io::{self, Write};

use evenhand_visit::Event;

use crate::event_words::word;

/// Where a visit writes its events.
pub struct EventPipe(Box<dyn Write + Send>);

impl EventPipe {
    /// A pipe that ends in this writer.
    pub fn new(writer: impl Write + Send + 'static) -> Self {
        Self(Box::new(writer))
    }

    /// Writes one event, at once.
    ///
    /// # Errors
    /// Nobody reads any more.
    pub fn write(&mut self, event: Event) -> io::Result<()> {
        writeln!(self.0, "{}", word(event))?;
        self.0.flush()
    }
}

impl fmt::Debug for EventPipe {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("EventPipe")
    }
}
