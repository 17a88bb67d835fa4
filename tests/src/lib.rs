//! Helpers that the tests over the whole of Evenhand share.
