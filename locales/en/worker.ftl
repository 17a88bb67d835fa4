# What a worker reads while setting up a station. Short and plain: ten minutes of training.
worker-band = Worker
step-place = Step { $step } of { $steps }
worker-bar-back = Back
worker-bar-next = Next
worker-bar-save = Save
worker-bar-done = Done

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

keep-heading = Save this?
keep-switches = First switch: { $first }. Second switch: { $second }.
keep-switches-usual = The switches stay as they are.
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
