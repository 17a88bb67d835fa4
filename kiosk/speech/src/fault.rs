//! Why there is no speech. Closed enums without text, so that they can be logged.

/// Why speech can't be had. The station shows it, calls the worker and tries again by itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fault {
    /// The environment names no speech service (`SPEECHD_ADDRESS`). Without it the client library
    /// would start a service of its own, with logs and history where nobody looks.
    NoAddress,
    /// The speech service doesn't answer at its address.
    NoService,
    /// The speech service was there and went away.
    ServiceDied,
    /// The speech service is connected but stopped answering.
    ServiceHung,
    /// The service took the words, but their end never came: nobody heard them.
    NeverEnded,
    /// The sound server doesn't answer, or the headphones' output isn't there.
    NoSound,
}

/// What became of the stored tone that stands in for speech.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ToneOutcome {
    /// The sound server played it to the end.
    Sounded,
    /// It couldn't be played either: only the screen can tell now.
    Unheard,
}
