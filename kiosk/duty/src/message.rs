//! Every message of a worker's screens, by name. The sentences are in `locales/`.

macro_rules! messages {
    ($($name:ident => $id:literal),+ $(,)?) => {
        /// One message. Its words are in `locales/<language>/worker.ftl` under [`Message::id`].
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        #[expect(missing_docs, reason = "each name is its message's id; the text is in locales/")]
        pub enum Message { $($name),+ }

        impl Message {
            /// Every message.
            pub const ALL: &'static [Self] = &[$(Self::$name),+];
            /// The Fluent id.
            pub const fn id(self) -> &'static str {
                match self { $(Self::$name => $id),+ }
            }
        }
    };
}

messages! {
    WorkerBand => "worker-band",
    StepPlace => "step-place",
    BarBack => "worker-bar-back",
    BarNext => "worker-bar-next",
    BarSave => "worker-bar-save",
    BarDone => "worker-bar-done",
    // The screen's size.
    CardHeading => "card-heading",
    CardHold => "card-hold",
    CardMatch => "card-match",
    CardSize => "card-size",
    CardOutOfRange => "card-out-of-range",
    CardWider => "card-wider",
    CardNarrower => "card-narrower",
    CardMuchWider => "card-much-wider",
    CardMuchNarrower => "card-much-narrower",
    // The switches.
    SwitchFirstHeading => "switch-first-heading",
    SwitchFirstPress => "switch-first-press",
    SwitchSecondHeading => "switch-second-heading",
    SwitchSecondPress => "switch-second-press",
    SwitchAnyRoad => "switch-any-road",
    SwitchEscape => "switch-escape",
    SwitchAgain => "switch-again",
    SwitchOther => "switch-other",
    SwitchSame => "switch-same",
    SwitchSkip => "switch-skip",
    SwitchRestart => "switch-restart",
    // Trying them.
    TryHeading => "try-heading",
    TryPress => "try-press",
    TryFirst => "try-first",
    TrySecond => "try-second",
    TryUnknown => "try-unknown",
    // Keeping it.
    KeepHeading => "keep-heading",
    KeepSwitches => "keep-switches",
    KeepSwitchesUsual => "keep-switches-usual",
    KeepFailed => "keep-failed",
    KeptHeading => "kept-heading",
    KeptLine => "kept-line",
}
