//! Keeps a visit's memory to itself: no core dump, no debugger of the same user, no page on a disk
//! where the system lets us lock memory, and no word of the voter's in a panic's message.

use std::io::{self, Write as _};

use rustix::mm::{MlockAllFlags, mlockall};
use rustix::process::{
    DumpableBehavior, Resource, Rlimit, getrlimit, set_dumpable_behavior, setrlimit,
};

/// Whether memory is locked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Memory {
    /// No page of it goes to a disk.
    Locked,
    /// The system sets a limit (`LimitMEMLOCK`), and locking beyond it would end the process.
    NotLocked,
}

/// Makes a panic say where it happened and nothing else: the message of one may quote a text that
/// was worked on, such as a name that the voter wrote.
pub fn keep_panics_quiet() {
    std::panic::set_hook(Box::new(|info| {
        let place = info.location().map(ToString::to_string).unwrap_or_default();
        // With no standard error there is nobody to tell; the exit code still says it.
        writeln!(io::stderr(), "evenhand: a defect at {place}").unwrap_or_default();
    }));
}

/// Confines this process.
///
/// # Errors
/// The system refuses to turn core dumps off.
pub fn confine() -> io::Result<Memory> {
    setrlimit(Resource::Core, Rlimit { current: Some(0), maximum: Some(0) })?;
    set_dumpable_behavior(DumpableBehavior::NotDumpable)?;
    // With a limit in force, a later allocation would fail instead of this call.
    if getrlimit(Resource::Memlock).current.is_some() {
        return Ok(Memory::NotLocked);
    }
    let all = MlockAllFlags::CURRENT | MlockAllFlags::FUTURE | MlockAllFlags::ONFAULT;
    Ok(if mlockall(all).is_ok() { Memory::Locked } else { Memory::NotLocked })
}
