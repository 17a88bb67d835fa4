//! Why the print service gave no answer that can be used.

use std::io;

use ipp::model::StatusCode;

/// Why there is no answer. What to do stands in each.
#[derive(Debug, thiserror::Error)]
pub enum ServiceError {
    /// It can't be written to or read from, or not in time.
    #[error("the print service does not answer ({0}): see that CUPS runs, then try again")]
    Silent(#[from] io::Error),
    /// The answer is longer than any that is expected.
    #[error(
        "the print service answered with more than {} bytes: see what listens on its socket",
        crate::ANSWER_BYTES_MAX
    )]
    TooLong,
    /// The answer isn't HTTP.
    #[error("what listens on the print service's socket does not speak HTTP ({0}): it is not CUPS")]
    NotHttp(String),
    /// The service refuses the request as such.
    #[error(
        "the print service refuses with HTTP status {0}: see that this user may print (the policy \
         in cupsd.conf)"
    )]
    Refused(u16),
    /// The answer isn't IPP.
    #[error("the print service's answer can't be read ({0}): see what listens on its socket")]
    NotIpp(String),
    /// The service says no.
    #[error("the print service says: {0}. See the printer in the system's settings")]
    Status(StatusCode),
    /// The answer lacks what was asked for.
    #[error("the print service's answer lacks {0}: see that CUPS is 2.2 or newer")]
    Lacks(&'static str),
    /// A request couldn't be written: a defect.
    #[error("a request to the print service can't be written ({0}): this is a defect of Evenhand")]
    NotMade(String),
}
