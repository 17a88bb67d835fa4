//! The step of set-up in which a sealed election is chosen: it is looked for, verified, compared,
//! refused, gone back from, and kept.

use evenhand_duty::{
    Button, Command, Election, Elections, Equipment, Glass, Input, Learned, Message, Named, Output,
    Place, Refusal, Sealed, SetUp, Sheet, Tone,
};

const FORWARD: Input = Input::Press(Command::Pick(Place::Forward));
const BACK: Input = Input::Press(Command::Back);

const fn row(row: u16) -> Input {
    Input::Press(Command::Pick(Place::Row(row)))
}

fn begun(has_one: bool, files: u16) -> SetUp {
    let set_up = SetUp::begin(Glass::new((1920, 1080), 276_700), None, Equipment::none(5));
    let mut set_up = set_up.with_elections(Elections::looking(has_one));
    let named = |number: u16| Named { number, name: format!("{number}.sealed.tar") };
    set_up.found_elections(Some((0..files).map(named).collect()));
    set_up
}

fn give(set_up: &mut SetUp, inputs: &[Input]) -> Option<Output> {
    inputs.iter().fold(None, |_, input| set_up.handle(*input))
}

fn sealed(name: &str) -> Sealed {
    Sealed {
        name: name.to_owned(),
        date: "2027-05-04".to_owned(),
        signers: vec!["Noor Haddad".to_owned(), "Tam Whitlock".to_owned()],
        digest: vec!["1: 0000 1111 2222 3333".to_owned()],
        keys_digest: vec!["1: aaaa bbbb cccc dddd".to_owned()],
    }
}

fn messages(sheet: &Sheet) -> Vec<Message> {
    [&sheet.heading].into_iter().chain(&sheet.lines).map(|line| line.message).collect()
}

/// From the card to what is kept.
fn kept(set_up: &mut SetUp) -> Learned {
    let skip = row(0);
    assert_eq!(set_up.sheet().heading.message, Message::CardHeading);
    give(set_up, &[FORWARD, skip, FORWARD, FORWARD, FORWARD, FORWARD]);
    assert_eq!(set_up.sheet().heading.message, Message::KeepHeading);
    match give(set_up, &[FORWARD]) {
        Some(Output::Keep(learned)) => learned,
        other => unreachable!("{other:?}"),
    }
}

#[test]
fn an_election_is_verified_compared_and_kept() {
    let mut set_up = begun(false, 2);
    assert_eq!(set_up.sheet().heading.message, Message::ElectionHeading);
    assert_eq!(give(&mut set_up, &[row(1)]), Some(Output::Check(1)));
    assert_eq!(set_up.sheet().heading.message, Message::ElectionCheckingHeading);
    assert_eq!(set_up.sheet().forward, None, "nothing is taken before it was verified");
    give(&mut set_up, &[FORWARD, Input::Press(Command::Forward)]);
    assert_eq!(set_up.sheet().heading.message, Message::ElectionCheckingHeading);
    assert_eq!(set_up.checked(1, Ok(sealed("Day"))), None);
    let shown = set_up.sheet();
    assert_eq!(shown.heading.message, Message::ElectionCompareHeading);
    assert_eq!(shown.focus, Some(Place::Back), "pressing once too often takes nothing");
    let texts = format!("{:?}", shown.lines);
    for part in ["Day", "2027-05-04", "Noor Haddad, Tam Whitlock", "0000 1111 2222 3333"] {
        assert!(texts.contains(part), "{part}: {texts}");
    }
    give(&mut set_up, &[FORWARD]);
    // The list of keys too: back from it nothing is taken.
    let keys = set_up.sheet();
    assert_eq!(keys.heading.message, Message::KeysCompareHeading);
    assert!(format!("{:?}", keys.lines).contains("aaaa bbbb cccc dddd"), "{keys:?}");
    assert_eq!(keys.focus, Some(Place::Back), "pressing once too often takes nothing");
    let mut back = set_up.clone();
    give(&mut back, &[BACK, FORWARD]);
    assert_eq!(kept(&mut back).election, Election::None);
    give(&mut set_up, &[FORWARD]);
    let steps = format!("{:?}", set_up.sheet().place);
    assert!(steps.contains("Number(2)") && steps.contains("Number(9)"), "{steps}");
    assert_eq!(kept(&mut set_up).election, Election::Found(1));
    // While it is copied nothing can be pressed; what fails can be tried again.
    assert_eq!(set_up.sheet().places().count(), 0);
    assert_eq!(give(&mut set_up, &[FORWARD, Input::Press(Command::Choose)]), None);
    give(&mut set_up, &[Input::Kept(false)]);
    assert_eq!(set_up.sheet().notice.map(|(tone, _)| tone), Some(Tone::Fault));
    assert!(matches!(give(&mut set_up, &[FORWARD]), Some(Output::Keep(_))));
    give(&mut set_up, &[Input::Kept(true)]);
    assert_eq!(set_up.sheet().heading.message, Message::KeptHeading);
}

#[test]
fn what_is_refused_says_why_and_cant_be_taken() {
    for (refusal, what) in [
        (Refusal::Unread, [Message::ElectionUnread, Message::ElectionUnreadDo]),
        (Refusal::Damaged, [Message::ElectionDamaged, Message::ElectionDamagedDo]),
        (Refusal::Changed, [Message::ElectionChanged, Message::ElectionChangedDo]),
        (Refusal::Untrusted, [Message::ElectionUntrusted, Message::ElectionUntrustedDo]),
        (Refusal::TooFew, [Message::ElectionTooFew, Message::ElectionTooFewDo]),
        (Refusal::Unusable, [Message::ElectionUnusable, Message::ElectionUnusableDo]),
    ] {
        let mut set_up = begun(false, 1);
        give(&mut set_up, &[row(0)]);
        set_up.checked(0, Err(refusal));
        let shown = messages(&set_up.sheet());
        assert_eq!(shown, [&[Message::ElectionRefusedHeading][..], &what].concat());
        for forward in [FORWARD, Input::Press(Command::Forward)] {
            give(&mut set_up, &[forward]);
            assert_eq!(messages(&set_up.sheet()), shown);
        }
        give(&mut set_up, &[BACK]);
        assert_eq!(set_up.sheet().heading.message, Message::ElectionHeading);
        give(&mut set_up, &[FORWARD]);
        assert_eq!(kept(&mut set_up).election, Election::None);
    }
}

#[test]
fn who_goes_back_has_taken_nothing_and_late_answers_change_no_screen() {
    let mut set_up = begun(false, 2);
    give(&mut set_up, &[row(0)]);
    give(&mut set_up, &[BACK]);
    assert_eq!(set_up.sheet().heading.message, Message::ElectionHeading);
    // One at a time: the second waits for the first, and what the first has shown isn't shown.
    assert_eq!(give(&mut set_up, &[row(1)]), None);
    assert_eq!(set_up.checked(0, Ok(sealed("First"))), Some(Output::Check(1)));
    assert_eq!(set_up.sheet().heading.message, Message::ElectionCheckingHeading);
    assert_eq!(set_up.checked(1, Ok(sealed("Second"))), None);
    assert!(format!("{:?}", set_up.sheet()).contains("Second"));
    give(&mut set_up, &[BACK]);
    assert_eq!(set_up.checked(1, Ok(sealed("Late"))), None);
    assert_eq!(set_up.sheet().heading.message, Message::ElectionHeading);
    give(&mut set_up, &[FORWARD]);
    assert_eq!(kept(&mut set_up).election, Election::None);
}

#[test]
fn what_the_station_has_is_kept_unless_another_is_taken() {
    let mut set_up = begun(true, 1);
    give(&mut set_up, &[FORWARD]);
    assert_eq!(kept(&mut set_up.clone()).election, Election::Kept);
    // Back from the card, another is taken; then the worker thinks better of it.
    give(&mut set_up, &[BACK, row(0)]);
    set_up.checked(0, Ok(sealed("Other")));
    give(&mut set_up, &[FORWARD, FORWARD]);
    assert_eq!(kept(&mut set_up.clone()).election, Election::Found(0));
    give(&mut set_up, &[BACK]);
    assert_eq!(set_up.sheet().rows[1].message, Message::ElectionKeep);
    give(&mut set_up, &[row(1), FORWARD]);
    assert_eq!(kept(&mut set_up).election, Election::Kept);
}

#[test]
fn many_files_are_paged_and_looked_for_again() {
    let mut set_up = begun(false, 6);
    // Four, the others, none, look again.
    assert_eq!(set_up.sheet().rows.len(), 7);
    give(&mut set_up, &[row(4)]);
    assert_eq!(set_up.sheet().rows.len(), 5);
    assert_eq!(give(&mut set_up.clone(), &[row(1)]), Some(Output::Check(5)));
    assert_eq!(give(&mut set_up, &[row(4)]), Some(Output::LookForElections));
    assert_eq!(set_up.sheet().lines.last().map(|line| line.message), Some(Message::DeviceLooking));
    assert_eq!(give(&mut set_up, &[row(1)]), None, "one look at a time");
    for (found, said) in
        [(None, Message::DeviceFailed), (Some(Vec::new()), Message::ElectionNotFound)]
    {
        set_up.found_elections(found);
        assert_eq!(set_up.sheet().lines.last().map(|line| line.message), Some(said));
    }
}

#[test]
fn without_elections_there_is_no_such_step() {
    let mut set_up = SetUp::begin(Glass::new((1920, 1080), 276_700), None, Equipment::none(5));
    set_up.found_elections(Some(Vec::new()));
    assert_eq!(set_up.checked(0, Ok(sealed("Day"))), None);
    give(&mut set_up, &[BACK, Input::Switch(Button(1))]);
    let steps = format!("{:?}", set_up.sheet().place);
    assert!(steps.contains("Number(1)") && steps.contains("Number(8)"), "{steps}");
    let learned = kept(&mut set_up);
    assert_eq!(learned.election, Election::Kept, "what the file names stays");
}
