//! Storage: a file is written, made sure of, read back from the disk and removed, and there is room.
#![expect(clippy::disallowed_methods, reason = "the app is the crate that opens files")]

use std::fs::{self, File, OpenOptions};
use std::io::{self, Read, Write as _};
use std::path::Path;

use rustix::fs::{Advice, fadvise, statvfs};

use super::{Outcome, Why};

/// The least room, in MiB. Own choice: the event log has at most 64 MiB, and is exported and
/// recovered beside itself.
pub const ROOM_LEAST_MIB: u32 = 200;
/// The test's file, in the folder that is tested.
pub const FILE: &str = "self-test.tmp";
/// How much is written: 1 MiB.
const BYTES: usize = MIB;
const MIB: usize = 1024 * 1024;
/// How much is read back at a time.
const PIECE: usize = 64 * 1024;

/// What was seen where all is as it should be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct StorageFigures {
    /// How much room there is, in MiB; no more than `u32::MAX`.
    pub free_mib: u32,
}

/// Tests a folder: there are `least_mib` of room ([`ROOM_LEAST_MIB`] usually), and what is written
/// comes back. A file that a test left there when the power failed is replaced.
pub fn storage(folder: &Path, least_mib: u32) -> Outcome<StorageFigures> {
    check(folder, least_mib).into()
}

fn check(folder: &Path, least_mib: u32) -> Result<StorageFigures, Why> {
    let free_mib = room(folder)?;
    if free_mib < least_mib {
        return Err(Why::RoomShort { free_mib, least_mib });
    }
    let path = folder.join(FILE);
    let seen = written(folder, &path).map_err(|_| Why::NotWritten).and_then(|()| read_back(&path));
    // It goes whatever was seen. Where it never was, there is nothing to remove.
    let gone = match remove(&path) {
        Ok(()) => sync(folder),
        Err(error) => Err(error),
    };
    seen?;
    gone.map_err(|_| Why::NotRemoved)?;
    Ok(StorageFigures { free_mib })
}

/// What anyone but the system's own user may still write (POSIX `statvfs`: `f_bavail`, in blocks of
/// `f_frsize`).
fn room(folder: &Path) -> Result<u32, Why> {
    let disk = statvfs(folder).map_err(|_| Why::RoomUnknown)?;
    let bytes = u128::from(disk.f_bavail) * u128::from(disk.f_frsize);
    let mib = bytes / u128::try_from(MIB).unwrap_or(u128::MAX);
    Ok(u32::try_from(mib).unwrap_or(u32::MAX))
}

/// Writes the pattern; it is on the disk afterwards, and no longer in memory, so that what is read
/// next comes from the disk.
fn written(folder: &Path, path: &Path) -> io::Result<()> {
    remove(path)?;
    let mut file = OpenOptions::new().write(true).create_new(true).open(path)?;
    file.write_all(&pattern())?;
    file.sync_all()?;
    sync(folder)?;
    fadvise(&file, 0, None, Advice::DontNeed)?;
    Ok(())
}

fn read_back(path: &Path) -> Result<(), Why> {
    let file = File::open(path).map_err(|_| Why::NotReadBack)?;
    same(file)
}

/// Compares what is read with the pattern, to its end.
fn same(mut file: impl Read) -> Result<(), Why> {
    let wanted = pattern();
    let mut piece = vec![0; PIECE];
    let mut rest = wanted.as_slice();
    loop {
        let read = file.read(&mut piece).map_err(|_| Why::NotReadBack)?;
        let seen = piece.get(..read).unwrap_or_default();
        if read == 0 {
            return if rest.is_empty() { Ok(()) } else { Err(Why::ReadBackDiffers) };
        }
        rest = rest.strip_prefix(seen).ok_or(Why::ReadBackDiffers)?;
    }
}

/// A known pattern: the number of each 8 bytes times an odd constant, so that no two places are
/// alike and a piece that comes back in another's place is seen. (The constant is the golden ratio's
/// in 64 bits, from memory; any odd one does.)
fn pattern() -> Vec<u8> {
    let words = (1u64..).map(|at| at.wrapping_mul(0x9e37_79b9_7f4a_7c15).to_le_bytes());
    words.flatten().take(BYTES).collect()
}

/// Removes the file if it is there.
fn remove(path: &Path) -> io::Result<()> {
    match fs::remove_file(path) {
        Err(error) if error.kind() != io::ErrorKind::NotFound => Err(error),
        Ok(()) | Err(_) => Ok(()),
    }
}

/// Makes sure of a folder's list of files.
fn sync(folder: &Path) -> io::Result<()> {
    File::open(folder)?.sync_all()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_comes_back_otherwise_is_refused() {
        let pattern = pattern();
        assert_eq!(pattern.len(), 1_048_576);
        assert_eq!(same(pattern.as_slice()), Ok(()));
        for at in [0, 7, PIECE - 1, PIECE, BYTES - 1] {
            let mut changed = pattern.clone();
            changed[at] ^= 1;
            assert_eq!(same(changed.as_slice()), Err(Why::ReadBackDiffers), "byte {at}");
        }
        assert_eq!(same(&pattern[..BYTES - 1]), Err(Why::ReadBackDiffers), "cut");
        let longer = [pattern.as_slice(), b"x"].concat();
        assert_eq!(same(longer.as_slice()), Err(Why::ReadBackDiffers), "longer");
        let mut swapped = pattern.clone();
        let (first, second) = swapped.split_at_mut(BYTES / 2);
        first.swap_with_slice(second);
        assert_eq!(same(swapped.as_slice()), Err(Why::ReadBackDiffers), "halves swapped");
    }

    /// A disk that fails while it is read.
    struct Broken;

    impl Read for Broken {
        fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
            Err(io::Error::other("broken"))
        }
    }

    #[test]
    fn a_disk_that_fails_is_not_one_that_differs() {
        assert_eq!(same(Broken), Err(Why::NotReadBack));
    }
}
