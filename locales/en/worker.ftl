# What a worker reads while setting up a station. Short and plain: ten minutes of training.
worker-band = Worker
step-place = Step { $step } of { $steps }
worker-bar-back = Back
worker-bar-next = Next
worker-bar-save = Save
worker-bar-done = Done

election-heading = Choose the election
election-line = Choose the sealed election that the office gave you.
election-not-found = No sealed election was found. Put the office’s drive in, then look again.
election-keep = Keep the one that this station has
election-kept = the one that this station has
election-checking-heading = Checking the election …
election-checking = This can take a minute. Leave the drive in.
election-compare-heading = Is it this election?
election-sealed-by = { $count ->
    [one] Sealed by { $count } official: { $names }
   *[other] Sealed by { $count } officials: { $names }
}
election-compare = Read these groups aloud. Compare each with the office’s paper.
election-differs = If one is different, go back and call the election office.
election-same = All are the same
keys-compare-heading = Is it this list of officials’ keys?
keys-compare-line = Only officials on this list can seal an election for this station.
election-refused-heading = This election cannot be used
election-unread = The file could not be read.
election-unread-do = Look at the drive. Then go back and choose it again.
election-damaged = The file is not whole, or it is not a sealed election.
election-damaged-do = Copy it from the election office again.
election-changed = The file was changed after it was sealed.
election-changed-do = Do not use it. Call the election office.
election-untrusted = Somebody has sealed it whom this station does not trust.
election-untrusted-do = Do not use it. Call the election office.
election-too-few = Too few officials have sealed it.
election-too-few-do = Ask the election office to have it sealed by more officials.
election-unusable = It is sealed, but this station cannot use what is in it.
election-unusable-do = Call the election office. They find out why with their own program.

card-heading = Measure this screen
card-hold = Hold a bank card or a driver license flat against the box.
card-match = Make the box as wide and as high as the card. All sizes of type follow from it.
card-size = Measured so: { $inches } inches across, { $width } by { $height } millimeters.
card-out-of-range = A screen of { $inches } inches can’t be used: ballots need about 15 to 32 inches. Measure again.
card-wider = Wider
card-narrower = Narrower
card-much-wider = Much wider
card-much-narrower = Much narrower

switch-first-heading = The first switch
switch-first-press = Press the first switch: the one that moves on.
switch-second-heading = The second switch
switch-second-press = Press the second switch: the one that chooses.
switch-any-road = It may be a key, a button of a mouse, or a button of a pad.
switch-escape = To use this screen: touch its buttons. The Escape key goes back.
switch-again = Heard: { $button }. Press it once more.
switch-other = This time it was { $button }. Press the switch you mean twice.
switch-same = That is the first switch ({ $button }). Press the other one.
switch-skip = Keep the switches as they are
switch-restart = Start again with the first switch

try-heading = Try both switches
try-press = Press each switch at least once.
try-first = First switch, { $button }: { $count ->
    [0] not pressed yet
    [one] pressed once
   *[other] pressed { $count } times
}
try-second = Second switch, { $button }: { $count ->
    [0] not pressed yet
    [one] pressed once
   *[other] pressed { $count } times
}
try-unknown = { $button } is neither of the two switches.

printer-heading = The printer
printer-line = Choose the printer for ballots. The self-test prints a sheet.
scanner-heading = The reader
scanner-line = Choose what reads the printed sheets: with a feeder, both sides if there are some.
headphones-heading = The headphones
headphones-line = Choose where the headphones are plugged in.
headphones-usual = What this computer uses
device-now = Chosen: { $name }
device-none = None for now (a demo needs none)
device-looking = Looking. Please wait.
device-failed = It could not be looked for. See the station’s log, then look again.
device-not-found = None was found. Plug it in and switch it on, then look again.
device-more = Others
device-look = Look again
loudness-heading = How loud it begins
loudness-line = Put the headphones on. Each voter can make it louder or softer.
loudness-now = Visits begin at loudness { $step } of { $steps }.
loudness-louder = Louder
loudness-softer = Softer
loudness-hear = Hear it
loudness-silent = No tone could be played. Look at the headphones, or go back and choose others.

keep-heading = Save this?
keep-switches = First switch: { $first }. Second switch: { $second }.
keep-switches-usual = The switches stay as they are.
keep-printer = Printer: { $name }
keep-scanner = Reader: { $name }
keep-headphones = Headphones: { $name }
keep-election = Election: { $name }
keep-wait = Saving. Please wait.
keep-failed = It could not be saved. Look at the message in the station’s window or log, then choose Save again.
kept-heading = Saved
kept-line = Start the station again to use it.

# How a button is called.
button-key = the key { $name }
button-mouse-left = the left button of the mouse
button-mouse-right = the right button of the mouse
button-mouse-middle = the middle button of the mouse
button-pad = the pad’s button “{ $name }”
button-up = arrow up
button-down = arrow down
button-left = arrow left
button-right = arrow right
button-space = space bar
button-sign = “{ $name }”

# A worker's day.
worker-plain = { $text }
band-closed = { $place }, station { $number}. Polls closed
band-test = { $place }, station { $number }. TEST: ballots do not count
band-official = { $place }, station { $number }. Official: ballots count
home-closed-heading = Polls are closed
home-open-heading = Polls are open
home-suspended-heading = Polls are suspended
home-election = { $election }, { $date }
home-not-sealed = This election is not sealed. It can be used for tests only.
home-not-tested = This station has not been tested since it was started.
home-test-passed = Self-test: every step passed.
home-test-failed = Self-test: a step failed. Do not open polls here. Call the election office.
home-test-skipped = Self-test: a step was skipped. Test it, or ask the election office.
home-test = Test this station
home-open = Open the polls
home-shut-down = Shut down
home-voter = Next voter
home-paper = Paper
home-suspend = Suspend the polls
home-close = Close the polls
home-resume = Go on with the polls
count-ballots = Ballots printed: { $ballots }. Spoiled: { $spoiled }.
count-visits = Visits started: { $started }. Finished: { $finished }. Stopped: { $stopped }.
count-sheets = Sheets printed: { $sheets }. Sheets put in: { $paper }.
who-heading = Who are you?
who-second-heading = Who is the second worker?
who-two = Two workers do this together. One of them is the lead.
who-nobody = There is nobody who may do this with you.
who-nobody-do = Two workers must be listed, one of them a lead. Call the election office.
who-more = Other names
code-heading = { $name }: your code
code-first = The first of two workers.
code-second = The second worker. The first one stays here.
code-typed = { $count ->
    [0] Type your code: 6 figures or more.
    [one] { $count } figure typed.
   *[other] { $count } figures typed.
}
code-checking = Checking …
code-wrong = That is not the code. Nothing has changed. Try again.
code-wait = There were too many wrong codes. Wait { $seconds } seconds. Then try again.
code-other = I am somebody else
type-space = space
type-delete = Delete the last
typed-nothing = Nothing typed yet.
typed-count = Typed: { $count }
typed-text = Typed: { $text }
purpose-heading = What are the polls opened for?
purpose-line = In a test every ballot says “test” and does not count.
purpose-not-sealed = This election is not sealed. Only a test is possible.
purpose-is-test = The election office has made this election as a test. Only a test is possible.
purpose-test = A test
purpose-official = The official election
open-paper-heading = How many sheets of paper are in the printer?
seals-heading = Number of a seal
seals-more = Next seal
seals-none = No seals noted.
seals-noted = Seals: { $seals }
open-test-heading = Open a TEST?
open-official-heading = Open the OFFICIAL election?
open-place = { $place }, station { $number }
open-zero = Ballots printed: 0. Both workers see that it is zero.
open-paper-line = Sheets in the printer: { $paper }
open-not-tested = Not every step of the self-test passed. You may go on if the election office says so.
open-now = Open
open-done = Polls are open. Sign the report and post a copy.
find-heading = Which ballot does the voter get?
find-type = Type the precinct, the party, or the house number and street.
find-nothing = Nothing fits. Delete some letters, or ask the lead.
find-more = { $count ->
    [one] { $count } more fits. Type on.
   *[other] { $count } more fit. Type on.
}
found-heading = Start this voter?
found-do = Read it to the voter. Then start, and step away.
found-start = Start
visit-heading = A voter is at this station
visit-finished = The voter has finished.
visit-not-opened = The voter’s screen could not be opened. Nothing was printed. Look at the message in the station’s log, then try again.
entry-heading = The voter’s ballot is hidden
entry-line = Nobody sees it, and nothing is said. Do not ask what the voter chose.
entry-go-on = Give the station back to the voter
entry-stop = Stop this visit
ending-heading = The visit is ending …
stop-heading = Why do you stop the visit?
stop-line = The voter’s choices will be erased from this station.
stop-wish = The voter asked for it
stop-left = The voter had left
stop-gone = The voter’s choices are gone from this station.
stop-paper-heading = Where is the paper?
face-down = Keep every sheet face down. Do not read it.
stop-paper-spoil = A ballot left here goes into the envelope for spoiled ballots.
stop-paper-out = This station has printed a ballot. Look for it.
paper-nowhere = There is no paper, or the voter has it
paper-tray = In the printer
paper-reader = In the reader
stop-done = The visit is stopped. No sheet was left here.
stop-done-spoiled = The visit is stopped, and the ballot is counted as spoiled. Put it into the envelope, face down.
search-power-heading = Power was lost while a voter was here
search-died-heading = The voter’s screen ended by itself
found-count-heading = How many sheets lie there?
found-count-other = Sheets of this voter were counted before: spoiled, or taken out when paper was stuck. Count only others: 0 if there are none.
search-do = Look for a sheet in the printer and in the reader. Where is it?
search-again = The voter may start again. Nothing was kept here.
paper-heading = Paper
paper-jam-do = If paper is stuck: open the printer, pull it out slowly, close it.
paper-add = I put paper in
paper-jam-cleared = I took stuck paper out
paper-jam-done = Noted. What you took out goes into the envelope for spoiled ballots.
jam-count-heading = How many sheets did you take out?
jam-count-do = Count the whole sheets too that came out before: everything is printed again. 0 if there are none.
paper-add-heading = How many sheets did you put in?
paper-added = Noted.
suspend-heading = Suspend the polls?
suspend-do = Do this at night, or when nobody can vote here for a while.
suspend-after = Two workers with their codes go on later. The counts stay.
suspend-now = Suspend
close-heading = Close the polls?
close-left-heading = How many sheets are left in the printer?
close-left-do = Take the paper out and count it, two workers together.
close-left = Sheets left: { $count }
close-now = Close
closed-heading = Polls are closed
closed-sign = Sign both copies of the report. One is for the observers.
closed-print-again = Print the report again
closed-export = Copy the log for the office
reconcile-even = The paper is all accounted for.
reconcile-missing = { $count ->
    [one] { $count } sheet is missing.
   *[other] { $count } sheets are missing.
} Count again. If it stays so, write it on the report.
reconcile-over = { $count ->
    [one] There is { $count } sheet too many.
   *[other] There are { $count } sheets too many.
} Count again. If it stays so, write it on the report.
report-done = The report is printed, two copies.
report-coming = A report is being printed. Wait until it is out. If it does not come, look at the printer.
report-failed = The report was not printed. Look at the printer. It is also saved in the station’s folder.
export-done = The log is copied.
export-failed = The log could not be copied. It is still whole in the station. Look at the drive, then try again.
halted-heading = Stop using this station
halted-full = Its storage is full: the log cannot be written.
halted-other = Its log cannot be written.
halted-do = Send voters to another station. Call the election office. Nothing that was logged is lost.
test-heading = Test: { $step }
test-running = The station is testing. Please wait.
test-fails = No, it fails
test-skip = Skip this step
test-done-heading = The self-test is over
test-counts = Passed: { $passed }. Failed: { $failed }. Skipped: { $skipped }.
test-result = { $step }: { $result }. { $why }
outcome-passed = passed
outcome-failed = failed
outcome-skipped = skipped
step-sealed-election = sealed election
step-log = log
step-clock = clock
step-storage = storage
step-voice = voice in each language
step-printer-sheet = printer, every oval
step-scanner = reader, every oval
step-screen-colors = colors of the screen
step-touch-grid = touch
step-left-ear = sound at the left ear
step-right-ear = sound at the right ear
step-switches = switches
step-keys = keys
touch-all = { $count ->
    [one] Touch the last cell.
   *[other] Touch every cell: { $count } left.
}
touch-fails = If one does not answer, press the Escape key.
colors-word = readable
switches-press = Press both switches.
switch-to-press = Switch { $switch }: not pressed yet
switch-was-pressed = Switch { $switch }: it works
switch-fails = It fails (Escape key)
keys-press = Press each of these keys once.
keys-left = Still to press: { $keys }.
keys-fail = If one does not answer, press another three times. To use the buttons here, touch them: without a keyboard, skip this step.
ear-left = Put the headphones on. A tone sounds at the left ear only.
ear-right = Put the headphones on. A tone sounds at the right ear only.
ear-yes = Yes, I hear it there
ear-again = Sound it again
colors-look = Look at the four boxes. Can you read the word in each?
colors-yes = Yes, all four
why-worker-says = A worker says so.
why-not-sealed = The election is not sealed.
why-not-whole = It is not as it was made. Call the election office.
why-clock-far = It is far from the election’s day. Compare it with a watch. If the clock is right, ask the election office.
why-no-room = There is too little room, or it cannot be written.
why-no-voice = A language has no voice and not all recordings.
why-no-speech = There is no speech. Look at the headphones.
why-no-paper = There is no paper. Put some in.
why-paper-stuck = Paper is stuck. Take it out.
why-no-answer = The device does not answer. Look at its cable.
why-no-sheet = The reader got no sheet that it can read.
why-ovals-differ = Some ovals were read wrong.
why-needs-other = Another step did not pass.

# A report on paper.
report-test = Self-test
report-opening = Polls opened
report-closing = Polls closed
report-state-test = TEST
report-state-official = OFFICIAL
report-election = Election
report-place = Place
report-station = Station
report-time = When
report-seals = Seals on the doors
report-sealed = Sealed by
report-not-sealed = nobody: for tests only
report-sheets = Sheets printed
report-ballots = Ballots printed
report-spoiled = Ballots spoiled
report-test-sheets = Test sheets
report-jams = Times that paper was stuck
report-started = Visits started
report-finished = Visits finished
report-stopped = Visits stopped
report-lifetime = Sheets in this station’s life
report-paper-in = Sheets put in
report-reports = Sheets that reports took
report-paper-left = Sheets left over
report-digest = Last line of the log ({ $count } lines)
report-not-certified = This is not certified equipment. Local election law and officials decide what may be used.
report-few = Fewer than 10 voters finished here. Others should be invited to use this station, so that nobody’s ballot stands out.
report-first = Lead worker
report-second = Second worker
