//! Tests of the conductor: inputs and times in, actions out.
